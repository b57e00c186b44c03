import type { Relief } from '../relief/relief.js';
import { stackHeight } from '../relief/stack-height.js';
import { joinAreas } from './areas.js';
import type { WoodScene } from './bridges.js';
import { frontSheetScenes } from './front-sheets.js';
import { keptLevels } from './levels.js';
import { frontSheets, sheetDemand, sheetPlaces } from './sheet-sets.js';

/** A piece, or a part of a continuous sheet, to look for bridges in. */
export interface FinishedScenes {
  readonly whole: WoodScene;
  /** Its sheets in front of the floors of recesses, taken apart from the rest. */
  readonly fronts: readonly WoodScene[];
}

/**
 * What is left in the end, to look for bridges in: every piece at its whole height, as it comes off the saw, and its
 * sheets in front of recess floors; or every part of every continuous sheet.
 */
export function finishedScenes(relief: Relief): FinishedScenes[] {
  return relief.joint === 'pieces' ? pieceScenes(relief) : levelScenes(relief);
}

function pieceScenes(relief: Relief): FinishedScenes[] {
  const ids = relief.stack.sheets.map((sheet) => sheet.id);
  const { passOf } = sheetDemand(relief);
  const heights = relief.bodies.map((_, b) => {
    const inSaw = sheetPlaces(frontSheets(passOf[b])).map((j) => ids[j]);
    return stackHeight(relief.stack, inSaw);
  });
  const fronts = frontSheetScenes(relief, heights);
  return relief.bodies.map(({ id, region, recesses, covered, order }, b) => ({
    whole: {
      regions: [region, ...recesses, ...covered],
      board: false,
      sheets: order,
      heightSawn: heights[b],
      where: id,
    },
    fronts: fronts[b],
  }));
}

function levelScenes(relief: Relief): FinishedScenes[] {
  const { map, stack } = relief;
  const levels = keptLevels(relief);
  const scenes: FinishedScenes[] = [];
  for (let level = Math.max(0, ...levels); level >= 1; level--) {
    const sheet = stack.sheets[stack.sheets.length - level];
    const areas = joinAreas(
      map,
      levels.map((n) => (n >= level ? 0 : -1)),
    );
    for (const { regions } of areas) {
      const scene = { regions, board: false, sheets: [sheet.id], heightSawn: sheet.thickness };
      scenes.push({ whole: { ...scene, where: sheet.id }, fronts: [] });
    }
  }
  return scenes;
}
