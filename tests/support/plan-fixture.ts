import { readFileSync } from 'node:fs';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseSidecar } from '../../src/relief/parse-sidecar.js';
import type { Joint } from '../../src/relief/relief.js';
import type { CutPlan, Workshop } from '../../src/workshop/cut-plan.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';

/** The plan of a pattern in fixtures/ by its drawing and its sidecar. */
export function planFixture(
  name: 'harbour' | 'fretwork' | 'owl',
  options: { readonly joint?: Joint; readonly workshop?: Partial<Workshop>; readonly root?: URL } = {},
): CutPlan {
  const root = options.root ?? new URL('../../', import.meta.url);
  const read = (file: string): string => readFileSync(new URL(`fixtures/${name}/${file}`, root), 'utf8');
  const map = mapRegions(readDrawing(read(`${name}.svg`)));
  const { stack, frame, joint, numbers } = parseSidecar(read(`${name}.plystep.json`));
  if (stack === null) throw new Error(`${name} has no stack in its sidecar`);
  const relief = buildRelief(map, {
    stack,
    ...(frame === null ? {} : { frame }),
    joint: options.joint ?? joint ?? 'pieces',
    sidecar: numbers,
  });
  return planCuts(relief, options.workshop);
}
