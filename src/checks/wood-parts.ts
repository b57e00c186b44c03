import type { Relief } from '../relief/relief.js';
import { woodLevels } from './material.js';
import { nameOf } from './words.js';

/** A body of wood that leaves the saw in one piece. */
export interface WoodPart {
  /** As messages call it. */
  readonly name: string;
  /** Region indices that it covers; the first stands for it. */
  readonly regions: readonly number[];
}

/**
 * What leaves the saw in one piece: each piece with its recesses, or, as continuous sheets, what hangs together
 * in each sheet. Add-ons of their own shape are left out.
 */
export function woodParts(relief: Relief): WoodPart[] {
  if (relief.joint === 'continuous') return sheetParts(relief);
  return relief.bodies.map(({ region, recesses, covered }) => ({
    name: nameOf(relief, region),
    regions: [region, ...recesses, ...covered.filter((place) => relief.regions[place].depth !== 0)],
  }));
}

function sheetParts(relief: Relief): WoodPart[] {
  const { sheets } = relief.stack;
  const levels = woodLevels(relief);
  const parts: WoodPart[] = [];
  for (let level = 1; level <= sheets.length; level++) {
    const taken = new Set<number>();
    levels.forEach((own, start) => {
      if (!(own >= level) || taken.has(start)) return;
      const regions = [start];
      taken.add(start);
      for (const at of regions) {
        for (const { region } of relief.map.regions[at].neighbours) {
          if (!(levels[region] >= level) || taken.has(region)) continue;
          taken.add(region);
          regions.push(region);
        }
      }
      const sheet = sheets[sheets.length - level].id;
      parts.push({
        name: `${nameOf(relief, start)} in sheet ${sheet}`,
        regions: regions.sort((a, b) => a - b),
      });
    });
  }
  return parts;
}
