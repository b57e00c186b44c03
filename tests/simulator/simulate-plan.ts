import polygonClipping, { type MultiPolygon } from 'polygon-clipping';
import type { PassEntry, PlanReport, StepEntry } from '../../src/output/plan-json.js';
import { BladeReach } from './blade-reach.js';
import { BoardLumps, checkApart } from './board-lumps.js';
import { BoardWaste } from './board-waste.js';
import { checkDrill } from './check-drill.js';
import { flatPath, ringArea, sampleRun, type XY } from './flat-path.js';
import { OUTSIDE, type PlanWorld, planWorld } from './plan-world.js';
import { SegmentStore } from './segment-store.js';

/** What came out when a plan was carried out on polygons. */
export interface Simulation {
  /** Everything that went otherwise than the plan says. */
  readonly problems: readonly string[];
  /** Area of each piece in each of its sheets, mm², as it came off the saw: by `piece sheet`. */
  readonly pieces: ReadonlyMap<string, number>;
  /** Area of what is left of each sheet within the drawing, mm². */
  readonly left: ReadonlyMap<string, number>;
}

/** A border of what comes free must be sawn to within this, mm: the flatness of both readings. */
const ON_LINE = 0.03;

/** How far outside a border the rest of the sheet is looked for, mm. */
const BESIDE = 0.05;

const STEP = 1;

/**
 * Carries out a plan, given as the JSON that the command prints: every sheet starts whole, each step saws its
 * path through its sheets and takes away the regions that it frees. Polygons by polygon-clipping, points and
 * reach by code of the tests alone; of the library only the types.
 */
export function simulatePlan(report: PlanReport): Simulation {
  return new Simulator(report).run();
}

class Simulator {
  readonly #report: PlanReport;
  readonly #world: PlanWorld;
  readonly #reach: BladeReach;
  readonly #waste: BoardWaste | null;
  readonly #lumps: BoardLumps | null;
  readonly #problems: string[] = [];
  readonly #pieces = new Map<string, number>();
  readonly #board: MultiPolygon;
  /** The shapes that came out of each sheet. */
  readonly #out = new Map<string, MultiPolygon[]>();
  /** Lines sawn in each sheet. */
  readonly #sawn = new Map<string, SegmentStore>();
  /** Regions gone, by sheet. */
  readonly #gone = new Map<string, Set<string>>();

  constructor(report: PlanReport) {
    this.#report = report;
    this.#world = planWorld(report);
    this.#reach = new BladeReach(this.#world);
    const state = (sheet: string) => ({ sawn: this.#sawn.get(sheet)!, gone: this.#gone.get(sheet)! });
    this.#waste =
      report.frame === 'cut' && this.#world.inStack.length > 0 ? new BoardWaste(this.#world, state) : null;
    this.#lumps = this.#waste === null ? null : new BoardLumps(this.#world, this.#waste, state);
    const [first, ...rest] = this.#world.inStack.map(({ polygon }) => polygon);
    this.#board = first === undefined ? [] : polygonClipping.union(first, ...rest);
    for (const { id } of report.stack) {
      this.#out.set(id, []);
      this.#sawn.set(id, new SegmentStore());
      this.#gone.set(id, new Set());
    }
  }

  run(): Simulation {
    let held: string[] | null = null;
    for (const pass of this.#report.passes) {
      if (pass.phase === 'add-ons') {
        const sawn = new SegmentStore();
        for (const step of pass.steps) this.#checkAddOn(step, sawn);
        continue;
      }
      held = this.#setUp(pass, held);
      for (const problem of this.#reach.reset())
        this.#fault(`before ${pass.phase} ${pass.number}: ${problem}`);
      for (const { regions, board } of pass.blocks) {
        if (!board) this.#checkLoose(pass.sheets, regions, `${pass.phase} ${pass.number}, a block`);
      }
      if (pass.loose.length > 0)
        this.#take(pass.sheets, pass.loose, pass.loosePieces, `${pass.number}, loose`);
      let lumps = this.#lumps?.lumps(pass.sheets) ?? [];
      const told = ({ boardApart = [] }: Pick<PassEntry, 'boardApart'>) =>
        boardApart.map(({ regions }) => regions);
      for (const problem of checkApart(null, lumps, told(pass)))
        this.#fault(`${pass.phase} ${pass.number}: ${problem}`);
      pass.steps.forEach((step, i) => {
        this.#carryOut(pass, step);
        const after = this.#lumps?.lumps(pass.sheets) ?? [];
        for (const problem of checkApart(lumps, after, told(step)))
          this.#fault(`${pass.phase} ${pass.number}, step ${i + 1}: ${problem}`);
        lumps = after;
      });
    }
    for (const problem of this.#reach.reset()) this.#fault(`at the end: ${problem}`);
    const left = new Map(
      [...this.#out].map(([sheet, shapes]) => [
        sheet,
        areaOf(polygonClipping.difference(this.#board, ...shapes)),
      ]),
    );
    return { problems: this.#problems, pieces: this.#pieces, left };
  }

  /** Lifts sheets off and puts sheets back, one at a time. */
  #setUp(pass: PassEntry, before: string[] | null): string[] {
    const stack = this.#report.stack.map((sheet) => sheet.id);
    let held = before ?? [...pass.sheets];
    if (this.#report.joint === 'continuous') held = [...pass.sheets];
    for (const { sheet, action } of pass.moves) {
      if (held.includes(sheet) !== (action === 'lift'))
        this.#fault(`${action} ${sheet}: it is not there to do so`);
      held = action === 'lift' ? held.filter((id) => id !== sheet) : [...held, sheet];
    }
    held.sort((a, b) => stack.indexOf(a) - stack.indexOf(b));
    if (held.join() !== pass.sheets.join())
      this.#fault(`held ${held.join()}, the plan says ${pass.sheets.join()}`);
    const height = pass.sheets.reduce(
      (sum, id) => sum + this.#report.stack.find((s) => s.id === id)!.thickness,
      0,
    );
    if (Math.abs(height - pass.height) > 1e-9) this.#fault(`height ${height}, the plan says ${pass.height}`);
    return held;
  }

  #carryOut(pass: PassEntry, step: StepEntry): void {
    const where = `${pass.phase} ${pass.number}, ${step.kind} ${step.regions.join()}`;
    if (step.sheets.join() !== pass.sheets.join()) this.#fault(`${where}: other sheets than are in the saw`);
    const isOpen = (region: string): boolean =>
      pass.sheets.every((sheet) => this.#gone.get(sheet)!.has(region));
    const drill = step.start.kind === 'drill' ? checkDrill(this.#world, pass, step, isOpen) : [];
    for (const problem of [...drill, ...this.#reach.saw(pass, step, isOpen)])
      this.#fault(`${where}: ${problem}`);
    for (const problem of this.#waste?.saw(step) ?? []) this.#fault(`${where}: ${problem}`);
    this.#checkSides(step, where);
    for (const run of flatPath(step.path)) for (const id of step.sheets) this.#sawn.get(id)!.add(run, 0);
    if (step.frees === 'block') this.#checkLoose(step.sheets, step.regions, where);
    else if (step.frees !== 'nothing') this.#take(step.sheets, step.regions, step.pieces, where);
    for (const lump of step.comesLoose ?? []) this.#checkLoose(step.sheets, lump, `${where}, a lump`);
    for (const { regions, sheets } of step.fallsOut ?? []) this.#take(sheets, regions, [], where);
    for (const problem of this.#waste?.settle(step) ?? []) this.#fault(`${where}: ${problem}`);
  }

  /** Nothing that must stay is cut: the two sides of a line belong to different things in every sheet. */
  #checkSides(step: StepEntry, where: string): void {
    for (const { at, left, right } of this.#reach.sides(step)) {
      if (step.sheets.every((sheet) => this.#isAir(left, sheet) && this.#isAir(right, sheet))) {
        this.#fault(`${where}: saws the air at ${at.map((v) => v.toFixed(2)).join(', ')}`);
        return;
      }
      if (step.kind === 'vein') continue;
      for (const sheet of step.sheets) {
        const owner = this.#world.owner(left, sheet);
        if (owner === null || owner !== this.#world.owner(right, sheet)) continue;
        this.#fault(
          `${where}: cuts ${owner} in two in ${sheet}, at ${at.map((v) => v.toFixed(2)).join(', ')}`,
        );
        return;
      }
    }
  }

  #isAir(cell: string, sheet: string): boolean {
    return cell === OUTSIDE ? this.#report.frame !== 'cut' : this.#gone.get(sheet)!.has(cell);
  }

  /** The outline of regions has come loose in the sheets where they are still there. */
  #checkLoose(sheets: readonly string[], regions: readonly string[], where: string): void {
    const [first, ...rest] = regions.map((id) => this.#world.regions.get(id)!.polygon);
    const shape = polygonClipping.union(first, ...rest);
    for (const sheet of sheets) {
      const gone = this.#gone.get(sheet)!;
      if (regions.every((id) => gone.has(id))) continue;
      const hold = this.#firstHold(shape, new Set([...gone, ...regions]), sheet);
      if (hold !== null)
        this.#fault(`${where}: held in ${sheet} at ${hold.map((v) => v.toFixed(2)).join(', ')}`);
    }
  }

  /** Takes what comes free out of the sheets. */
  #take(
    sheets: readonly string[],
    regions: readonly string[],
    pieces: readonly string[],
    where: string,
  ): void {
    this.#checkLoose(sheets, regions, where);
    for (const sheet of sheets) {
      const gone = this.#gone.get(sheet)!;
      for (const id of regions.filter((region) => !gone.has(region))) {
        gone.add(id);
        const { polygon } = this.#world.regions.get(id)!;
        this.#out.get(sheet)!.push(polygon);
        const owner = this.#world.owner(id, sheet);
        if (owner === null) continue;
        if (!pieces.includes(owner)) this.#fault(`${where}: takes ${id} of ${owner} out of ${sheet}`);
        const key = `${owner} ${sheet}`;
        this.#pieces.set(key, (this.#pieces.get(key) ?? 0) + areaOf(polygon));
      }
    }
  }

  /** A point of a shape's border where nothing is sawn and material goes on, or null. */
  #firstHold(shape: MultiPolygon, loose: ReadonlySet<string>, sheet: string): XY | null {
    const sawn = this.#sawn.get(sheet)!;
    const board = this.#report.frame === 'cut';
    for (const ring of shape.flat()) {
      for (const { at, along } of sampleRun(ring, STEP)) {
        if (sawn.distance(at, ON_LINE) <= ON_LINE) continue;
        const sides: XY[] = [
          [at[0] + BESIDE * along[1], at[1] - BESIDE * along[0]],
          [at[0] - BESIDE * along[1], at[1] + BESIDE * along[0]],
        ];
        const cells = sides.map((p) => this.#world.at(p));
        if (cells.some((cell) => (cell === OUTSIDE ? board : !loose.has(cell)))) return at;
      }
    }
    return null;
  }

  /** @param border what is sawn of the scrap so far: two add-ons may share a line */
  #checkAddOn(step: StepEntry, border: SegmentStore): void {
    for (const run of flatPath(step.path)) border.add(run, 0);
    if (step.frees !== 'piece') return;
    for (const id of step.pieces) {
      const { region } = this.#report.addOns.find((addOn) => addOn.id === id)!;
      const [outline] = this.#world.regions.get(region)!.runs;
      const miss = sampleRun([...outline, outline[0]], STEP).find(
        ({ at }) => border.distance(at, ON_LINE) > ON_LINE,
      );
      if (miss !== undefined) this.#fault(`add-on ${id}: not sawn at ${miss.at.join(', ')}`);
    }
  }

  #fault(problem: string): void {
    this.#problems.push(problem);
  }
}

/** Area of polygons whose first ring is the outline and whose others are holes, mm². */
export function areaOf(area: MultiPolygon): number {
  let sum = 0;
  for (const polygon of area) {
    polygon.forEach((ring, i) => {
      sum += (i === 0 ? 1 : -1) * ringArea(ring);
    });
  }
  return sum;
}
