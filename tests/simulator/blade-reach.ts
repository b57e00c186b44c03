import type { PassEntry, StepEntry } from '../../src/output/plan-json.js';
import { flatPath, sampleRun, type XY } from './flat-path.js';
import { BOARD_EDGE, OUTSIDE, type PlanWorld } from './plan-world.js';
import { SegmentStore } from './segment-store.js';

/** How far to the side of a line its two sides are looked at, and how near counts as touching, mm. */
const BESIDE = 0.03;
const TOUCH = 0.03;

/** Distance of samples along a line, mm. */
const STEP = 0.8;

/** A line that has been sawn. */
interface Kerf {
  readonly sheets: ReadonlySet<string>;
  readonly cells: ReadonlySet<string>;
  readonly touches: ReadonlySet<number>;
}

/** Where the blade can be: worked out from the lines sawn so far and the regions beside them. */
export class BladeReach {
  readonly #world: PlanWorld;
  readonly #kerfs: Kerf[] = [];
  readonly #store = new SegmentStore();
  /** The kerf in which the blade is, -1: it is in none. */
  #blade = -1;
  /** The blade can't come out by the edge, and whether the plan says so; null: it is in no work. */
  #last: { readonly caught: boolean; readonly told: boolean } | null = null;

  constructor(world: PlanWorld) {
    this.#world = world;
  }

  /** The saw is set anew: the blade is out. Returns what is wrong with how it came out. */
  reset(): string[] {
    this.#blade = -1;
    const { caught, told } = this.#last ?? { caught: false, told: false };
    return caught === told ? [] : [told ? 'the blade is not caught' : 'the blade is caught'];
  }

  /**
   * Checks that a step can start where it says, and that every run of it begins where the blade can be.
   * Then saws its lines. Returns what is wrong.
   */
  saw(pass: PassEntry, step: StepEntry, isOpen: (region: string) => boolean): string[] {
    // A block lies on the table by itself: where others stand there is air.
    const { own: block, board } = this.#blockOf(pass, step);
    // Waste around the picture is no way: one is sawn through it, and stands in the plan.
    const inWaste = board && this.#world.report.frame === 'cut';
    const isAir = (cell: string): boolean =>
      cell === BOARD_EDGE || (cell === OUTSIDE ? !inWaste : isOpen(cell) || !block.has(cell));
    const isEdge = (cells: ReadonlySet<string>): boolean =>
      cells.has(BOARD_EDGE) || (!inWaste && cells.has(OUTSIDE));
    const passable = (cell: string): boolean => isAir(cell) || this.#isWaste(cell, pass.sheets);
    this.#addWays(step);
    const runs = flatPath(step.path);
    const { start } = step;
    const from = (start.begin ?? start.at) as XY;
    const wrong: string[] = [];
    let reached: Reached;
    if (start.kind === 'drill') {
      wrong.push(...this.#releaseFaults(start, false));
      reached = this.#spread(pass, passable, this.#touching(pass, start.at as XY));
    } else {
      const goal = this.#spread(pass, passable, this.#touching(pass, start.at as XY));
      const fromEdge = isEdge(goal.cells);
      const fromBlade = this.#blade >= 0 && goal.kerfs.has(this.#blade);
      const fromOpen = [...goal.cells].some((cell) => cell !== OUTSIDE && cell !== BOARD_EDGE && isAir(cell));
      const fine = start.threaded ? fromOpen : start.kind === 'edge' ? fromEdge : fromEdge || fromBlade;
      wrong.push(...this.#releaseFaults(start, fromBlade));
      if (!fine) wrong.push(`the start of kind ${start.kind} at ${start.at.join(', ')} can't be reached`);
      reached = goal;
    }
    if (distance(runs[0][0], start.kind === 'line' ? (start.at as XY) : from) > TOUCH && step.leadIn === 0) {
      wrong.push(`the path does not begin at ${from.join(', ')}`);
    }
    const tag = this.#kerfs.length;
    const own = new SegmentStore();
    runs.forEach((run, i) => {
      if (i > 0 && own.near(run[0], TOUCH).size === 0) {
        const there = this.#touching(pass, run[0]);
        if (!meets(there, reached, passable)) {
          wrong.push(`run ${i + 1} begins at ${run[0].join(', ')}, where the blade can't be`);
        }
      }
      own.add(run, tag);
      if (i + 1 === runs.length) return;
      const ends = run.map((point) => this.#touching(pass, point));
      reached = this.#spread(pass, passable, {
        kerfs: new Set([...reached.kerfs, ...ends.flatMap((end) => [...end.kerfs])]),
        cells: new Set([...reached.cells, ...ends.flatMap((end) => [...end.cells])]),
      });
    });
    // Each run is a kerf of its own: between two of them may be waste that stands.
    for (const run of runs) this.#add([run], step.sheets);
    this.#blade = this.#kerfs.length - 1;
    // Open ways only: waste that stands is no way out.
    const out = (): boolean =>
      isEdge(this.#spread(pass, isAir, { kerfs: new Set([this.#blade]), cells: new Set() }).cells);
    const inWork = start.threaded || (start.outside !== true && this.#last?.caught === true);
    this.#last = { caught: inWork && !out(), told: step.captive === true };
    return wrong;
  }

  /** A blade that stands in the work stays there until it is taken out, and the plan says when. */
  #releaseFaults({ threaded, released, outside }: StepEntry['start'], fromBlade: boolean): string[] {
    const { caught, told } = this.#last ?? { caught: false, told: false };
    const goesOn = !threaded && fromBlade && outside !== true;
    const wrong: string[] = [];
    if (told !== (caught && !goesOn)) wrong.push('the step before says wrongly whether the blade is caught');
    if ((released === true) !== (caught && !threaded && !goesOn))
      wrong.push('it says wrongly whether the blade had to be taken out');
    return wrong;
  }

  /** Both sides of the lines of a step, by the sheets it goes through: pairs of cells with the place. */
  sides(step: StepEntry): { at: XY; left: string; right: string }[] {
    return flatPath(step.path).flatMap((run) =>
      sampleRun(run, STEP).map(({ at, along: [ux, uy] }) => ({
        at,
        left: this.#world.at([at[0] + BESIDE * uy, at[1] - BESIDE * ux]),
        right: this.#world.at([at[0] - BESIDE * uy, at[1] + BESIDE * ux]),
      })),
    );
  }

  /** The regions of the block that the lines of a step are sawn in: the one that lies beside most of them. */
  #blockOf(
    { blocks }: PassEntry,
    step: StepEntry,
  ): { readonly own: ReadonlySet<string>; readonly board: boolean } {
    const cells = this.sides(step).flatMap(({ left, right }) => [left, right]);
    const counts = blocks.map(({ regions, board }) => {
      const own = new Set(regions);
      return { own, board, n: cells.filter((cell) => own.has(cell) || (board && cell === OUTSIDE)).length };
    });
    return counts.reduce((best, next) => (next.n > best.n ? next : best));
  }

  /** A way in is a kerf; one that begins at the edge of the board is open there. */
  #addWays({ waysIn = [], sheets }: StepEntry): void {
    for (const { length, points, from } of waysIn) {
      if (length === 0) continue;
      const tag = this.#kerfs.length;
      this.#add([points as readonly XY[]], sheets);
      if (from === 'edge') (this.#kerfs[tag].cells as Set<string>).add(BOARD_EDGE);
    }
  }

  #isWaste(cell: string, sheets: readonly string[]): boolean {
    const role = this.#world.regions.get(cell)?.role;
    if (role === 'void') return true;
    if (this.#world.report.joint === 'continuous') {
      return role !== null && sheets.every((sheet) => this.#world.owner(cell, sheet) === null);
    }
    if (role !== 'opening' && role !== 'recess' && role !== 'add-on') return false;
    return sheets.every((sheet) => this.#world.owner(cell, sheet) === null);
  }

  #add(runs: readonly (readonly XY[])[], sheets: readonly string[]): void {
    const tag = this.#kerfs.length;
    const cells = new Set<string>();
    const touches = new Set<number>();
    for (const run of runs) {
      for (const { at, along } of sampleRun(run, STEP)) {
        const [dx, dy] = [BESIDE * along[1], BESIDE * along[0]];
        cells.add(this.#world.at([at[0] + dx, at[1] - dy]));
        cells.add(this.#world.at([at[0] - dx, at[1] + dy]));
      }
      // Lines meet at vertices, and a line may end in the middle of another one.
      for (const point of run) {
        for (const other of this.#store.near(point, TOUCH)) touches.add(other);
        for (const cell of around(this.#world, point)) cells.add(cell);
      }
    }
    for (const run of runs) this.#store.add(run, tag);
    this.#kerfs.push({ sheets: new Set(sheets), cells, touches });
    for (const other of touches) (this.#kerfs[other].touches as Set<number>).add(tag);
  }

  #touching(pass: PassEntry, at: XY): Reached {
    const kerfs = [...this.#store.near(at, TOUCH)].filter((tag) => this.#isThrough(tag, pass));
    return { kerfs: new Set(kerfs), cells: new Set(around(this.#world, at)) };
  }

  #isThrough(tag: number, pass: PassEntry): boolean {
    return pass.sheets.every((sheet) => this.#kerfs[tag].sheets.has(sheet));
  }

  /** All kerfs and passable cells that hang together with the given ones. */
  #spread(pass: PassEntry, passable: (cell: string) => boolean, from: Reached): Reached {
    const kerfs = new Set<number>();
    const cells = new Set<string>();
    const pending: (number | string)[] = [...from.kerfs, ...[...from.cells].filter(passable)];
    for (let next = pending.pop(); next !== undefined; next = pending.pop()) {
      if (typeof next === 'number') {
        if (kerfs.has(next)) continue;
        kerfs.add(next);
        for (const cell of this.#kerfs[next].cells) if (passable(cell)) pending.push(cell);
        for (const other of this.#kerfs[next].touches) if (this.#isThrough(other, pass)) pending.push(other);
        continue;
      }
      if (cells.has(next)) continue;
      cells.add(next);
      const cell = next;
      this.#kerfs.forEach((kerf, tag) => {
        if (kerf.cells.has(cell) && this.#isThrough(tag, pass)) pending.push(tag);
      });
      for (const other of this.#neighbours(cell)) if (passable(other)) pending.push(other);
    }
    return { kerfs, cells };
  }

  readonly #neighbourCache = new Map<string, ReadonlySet<string>>();

  /** Cells that share border with a cell: the blade may saw on from waste into waste. */
  #neighbours(cell: string): ReadonlySet<string> {
    const known = this.#neighbourCache.get(cell);
    if (known !== undefined) return known;
    const found = new Set<string>();
    const region = this.#world.regions.get(cell);
    const border =
      region === undefined ? [...this.#world.regions.values()].flatMap((r) => r.runs) : region.runs;
    for (const run of border) {
      const ring = [...run, run[0]];
      for (const point of ring) for (const other of around(this.#world, point)) found.add(other);
      if (cell === OUTSIDE) continue;
      for (const { at, along } of sampleRun(ring, STEP)) {
        found.add(this.#world.at([at[0] + BESIDE * along[1], at[1] - BESIDE * along[0]]));
        found.add(this.#world.at([at[0] - BESIDE * along[1], at[1] + BESIDE * along[0]]));
      }
    }
    this.#neighbourCache.set(cell, found);
    return found;
  }
}

interface Reached {
  readonly kerfs: ReadonlySet<number>;
  readonly cells: ReadonlySet<string>;
}

function meets(a: Reached, b: Reached, passable: (cell: string) => boolean): boolean {
  return (
    [...a.kerfs].some((tag) => b.kerfs.has(tag)) || [...a.cells].some((c) => passable(c) && b.cells.has(c))
  );
}

/** The cells right around a point. */
function around(world: PlanWorld, [x, y]: XY): string[] {
  const cells = new Set<string>();
  for (let k = 0; k < 12; k++) {
    const angle = (k * Math.PI) / 6 + 0.1;
    cells.add(world.at([x + BESIDE * Math.cos(angle), y + BESIDE * Math.sin(angle)]));
  }
  return [...cells];
}

function distance(a: XY, b: XY): number {
  return Math.hypot(a[0] - b[0], a[1] - b[1]);
}
