import type { Relief } from '../relief/relief.js';
import { stackHeight } from '../relief/stack-height.js';
import { joinAreas } from './areas.js';
import type { WoodScene } from './bridges.js';
import { keptLevels } from './levels.js';
import { frontSheets, sheetDemand, sheetPlaces } from './sheet-sets.js';

/**
 * What is left in the end, to look for bridges in: every piece at its whole height, as it comes off the saw; or
 * every part of every continuous sheet.
 */
export function finishedScenes(relief: Relief): WoodScene[] {
  return relief.joint === 'pieces' ? pieceScenes(relief) : levelScenes(relief);
}

function pieceScenes(relief: Relief): WoodScene[] {
  const ids = relief.stack.sheets.map((sheet) => sheet.id);
  const { passOf } = sheetDemand(relief);
  return relief.bodies.map(({ id, region, recesses, covered, order }, b): WoodScene => {
    const inSaw = sheetPlaces(frontSheets(passOf[b])).map((j) => ids[j]);
    return {
      regions: [region, ...recesses, ...covered],
      board: false,
      sheets: order,
      heightSawn: stackHeight(relief.stack, inSaw),
      where: id,
    };
  });
}

function levelScenes(relief: Relief): WoodScene[] {
  const { map, stack } = relief;
  const levels = keptLevels(relief);
  const scenes: WoodScene[] = [];
  for (let level = Math.max(0, ...levels); level >= 1; level--) {
    const sheet = stack.sheets[stack.sheets.length - level];
    const areas = joinAreas(
      map,
      levels.map((n) => (n >= level ? 0 : -1)),
    );
    for (const { regions } of areas) {
      const scene = { regions, board: false, sheets: [sheet.id], heightSawn: sheet.thickness };
      scenes.push({ ...scene, where: sheet.id });
    }
  }
  return scenes;
}
