import type { Body, Relief } from '../relief/relief.js';
import { stackHeight } from '../relief/stack-height.js';
import { joinAreas } from './areas.js';
import type { WoodScene } from './bridges.js';

/** Sheets of a piece that lie one behind the other and have the same recesses sawn into them. */
interface SheetRun {
  readonly body: number;
  /** How many sheets from the face it begins: what goes no further down is still wood in it. */
  readonly from: number;
  /** Ids, from the face. */
  readonly sheets: readonly string[];
}

/**
 * What the recesses leave of the sheets in front of their floors, by body: for each run of sheets with the same outline
 * one scene for each part that hangs together in it. A piece without recesses has none. A run is taken apart from the
 * others and from the floor before it is glued on, so a bar in it is as thin as the run.
 *
 * A recess is sawn with just its own sheets together, whatever the schedule says; all other lines with the piece.
 *
 * @param heightSawn by body: the height at which it is sawn out, mm
 */
export function frontSheetScenes(relief: Relief, heightSawn: readonly number[]): WoodScene[][] {
  const { map, regions, bodies } = relief;
  const scenes: WoodScene[][] = bodies.map(() => []);
  const runs = bodies.flatMap((body, b) => frontRuns(relief, body, b));
  const starts = [...new Set(runs.map(({ from }) => from))].sort((a, b) => a - b);
  for (const start of starts) {
    const runOf = new Map(runs.flatMap((run) => (run.from === start ? [[run.body, run]] : [])));
    const keys = regions.map(({ body, down }, r) =>
      body === null || map.regions[r].addOn || down > start || !runOf.has(body) ? -1 : body,
    );
    for (const area of joinAreas(map, keys)) {
      const run = runOf.get(keys[area.regions[0]])!;
      const { id } = bodies[run.body];
      scenes[run.body].push({
        regions: area.regions,
        board: false,
        sheets: run.sheets,
        heightSawn: heightSawn[run.body],
        recesses: recessesBelow(relief, bodies[run.body], start).map((r) => [r, recessHeight(relief, r)]),
        where: `${id} ${run.sheets.join('+')}`,
      });
    }
  }
  return scenes;
}

function frontRuns(relief: Relief, piece: Body, body: number): SheetRun[] {
  const { order } = piece;
  const depths = recessesBelow(relief, piece, 0).map((r) => relief.regions[r].down);
  const floors = [...new Set(depths)].sort((a, b) => a - b);
  return floors.map((floor, i) => {
    const from = i === 0 ? 0 : floors[i - 1];
    return { body, from, sheets: order.slice(from, floor) };
  });
}

/** The recesses that go further down than so many sheets from the face, covered ones too. */
function recessesBelow({ regions }: Relief, { recesses, covered, order }: Body, from: number): number[] {
  return [...recesses, ...covered].filter((r) => regions[r].down > from && regions[r].down < order.length);
}

/** Height of the sheets that a recess goes through, mm. */
function recessHeight({ stack, regions, bodies }: Relief, region: number): number {
  const { body, down } = regions[region];
  return stackHeight(stack, bodies[body!].order.slice(0, down));
}
