import type { Point } from '../geometry/point.js';
import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import { isOnBoard } from './board-block.js';
import { boardLumps, type BoardLump as LumpOfBoard } from './board-lumps.js';
import type { CutStart, CutStep, LooseWaste, Pass, WayIn, Workshop } from './cut-plan.js';
import { keptSheets } from './kept-sheets.js';
import { leadsOut } from './leads-out.js';
import { keptLevels } from './levels.js';
import { type LineGraph, lineGraph, someLineAt } from './line-graph.js';
import type { LineShapes } from './line-shapes.js';
import { looseWaste, mergedWaste, placeOfParts } from './loose-waste.js';
import { watchParting } from './parting-watch.js';
import { sawMinutes } from './saw-time.js';
import { holdsAll, isAddOnEdge, type SheetSet } from './sheet-sets.js';
import { type WasteBorder, wasteBorder } from './waste-border.js';
import { WasteSheets } from './waste-sheets.js';
import { isBetween, lengthOf, pointsOn } from './way-lines.js';
import { findWay, type WaySource } from './way-search.js';
import { type Cutout, cutoutAt, leadsIntoCutout, openField, upToLines } from './way-through-cutout.js';

/**
 * Adds to a plan how the blade comes through the waste of the board, and what becomes of that waste.
 *
 * Input: the settings of a plan in order, with their steps. A step that begins at the outline of the picture, where the
 * waste around it still stands, gets a way in. Where a kerf is there already, or the waste has come off, the blade
 * comes through that, and nothing is sawn; a way that is there is taken again, or a new one branches off, or sets out
 * from the kerf of an outline, or from the edge of the board: the least that has to be sawn anew (way-search.ts). Ways
 * cross neither the picture nor each other.
 *
 * The ways and the outlines cut the waste into parts, sheet by sheet (waste-parts.ts). A part that touches nothing of
 * the picture any more that stands comes off with the step; no way is sawn through it later.
 *
 * Steps with a way take longer by it. Nothing else of the plan changes.
 */
export function withBoardWays(
  relief: Relief,
  passes: readonly Pass[],
  shapes: LineShapes,
  workshop: Workshop,
): Pass[] {
  const { frame, joint, map } = relief;
  if (frame !== 'cut' || map.regions.length === 0) return [...passes];
  if (joint === 'pieces') {
    const border = wasteBorder(map, shapes, (r) => relief.regions[r].role === 'void');
    const kept = keptSheets(relief);
    const isFree = (r: number, held: SheetSet): boolean =>
      relief.regions[r].role !== null && (kept[r] & held) === 0;
    const board = new BoardSaw(relief, border, shapes, isFree, workshop);
    return passes.map((pass) => (pass.phase === 'add-ons' ? pass : board.saw(pass)));
  }
  const levels = keptLevels(relief);
  return passes.map((pass) => {
    if (pass.phase === 'add-ons') return pass;
    const isWaste = (r: number): boolean => relief.regions[r].depth !== null && levels[r] < pass.number;
    return new BoardSaw(relief, wasteBorder(map, shapes, isWaste), shapes, isWaste, workshop).saw(pass);
  });
}

type Apart = Pick<CutStep, 'boardApart'>;

/** A way that is sawn. */
interface SawnWay {
  readonly points: readonly Point[];
  /** As much of it as lies in the waste of the board: the same list, where that is all. */
  readonly inBoard: readonly Point[];
  /** The way that it branches off, -1: none. */
  readonly parent: number;
  readonly from: WaySource['kind'];
  /** Node of the map that it leads to. */
  readonly node: number;
  sheets: SheetSet;
}

/** Where a run of a step begins. */
interface RunStart {
  readonly run: number;
  readonly node: number;
  /** Its first line, and whether that is sawn from its `from` node. */
  readonly edge: number;
  readonly forward: boolean;
}

/** What the blade comes through to a run, and the way that it takes. */
interface Coming {
  readonly by: CutStart['by'];
  readonly way: WayIn | null;
}

/** Carries the settings out on the waste of the board; the only thing here that changes. */
class BoardSaw {
  readonly #relief: Relief;
  readonly #border: WasteBorder;
  readonly #shapes: LineShapes;
  /** The region is waste in all the sheets. */
  readonly #isWaste: (region: number, held: SheetSet) => boolean;
  readonly #workshop: Workshop;
  readonly #graph: LineGraph;
  readonly #ids: readonly string[];
  readonly #sawn: Int32Array;
  readonly #gone: Int32Array;
  /** Nodes on the border of the waste, and lines of it. */
  readonly #nodes = new Set<number>();
  readonly #isBorder: Uint8Array;
  readonly #ways: SawnWay[] = [];
  readonly #waste: WasteSheets;
  /** Ways that are sawn in this setting, with their steps. */
  readonly #wayAt = new Map<number, number>();
  #step = 0;

  constructor(
    relief: Relief,
    border: WasteBorder,
    shapes: LineShapes,
    isWaste: (region: number, held: SheetSet) => boolean,
    workshop: Workshop,
  ) {
    const { map, stack } = relief;
    this.#relief = relief;
    this.#border = border;
    this.#shapes = shapes;
    this.#isWaste = isWaste;
    this.#workshop = workshop;
    this.#graph = lineGraph(map, (e) => !isAddOnEdge(map, e));
    this.#ids = stack.sheets.map(({ id }) => id);
    this.#sawn = new Int32Array(map.edges.length);
    this.#gone = new Int32Array(map.regions.length);
    this.#isBorder = new Uint8Array(map.edges.length);
    for (const e of border.lines) {
      this.#isBorder[e] = 1;
      this.#nodes.add(map.edges[e].from).add(map.edges[e].to);
    }
    this.#waste = new WasteSheets(border.loops, stack.sheets.length);
  }

  saw(pass: Pass): Pass {
    const held = this.#setOf(pass.sheets);
    for (const r of pass.loose) this.#gone[r] |= held;
    this.#wayAt.clear();
    const watch = watchParting(this.#relief.map, (e) => holdsAll(this.#openAt(e), held));
    const sawn = pass.steps.map((step, i) => {
      this.#step = i;
      const begun = this.#sawWays(pass, i, held);
      const settled = { ...begun, ...this.#settle(step, held) };
      const fallen = (step.fallsOut ?? []).flatMap(({ regions }) => regions);
      watch.stepDone(i, step.edges, [...step.regions, ...fallen]);
      return settled;
    });
    const minutes = sawn.reduce((sum, step, i) => sum + step.minutes - pass.steps[i].minutes, pass.minutes);
    const { start, bySteps } = this.#lumps(held, watch.partedAt, sawn.length);
    const steps = sawn.map((step, i) => ({ ...step, ...bySteps[i] }));
    return { ...pass, steps, minutes, ...start };
  }

  /** What of the board is apart before the setting, and comes apart in it. */
  #lumps(held: SheetSet, partedAt: Int32Array, steps: number): { start: Apart; bySteps: readonly Apart[] } {
    const { map } = this.#relief;
    const border = this.#border;
    const parts = this.#waste.parts(held);
    const found = boardLumps({ map, border, parts, partedAt, wayAt: this.#wayAt, steps });
    const told = (lumps: readonly LumpOfBoard[]): Apart =>
      lumps.length === 0
        ? {}
        : {
            boardApart: lumps.map(({ regions, parts: own }) => ({
              regions,
              place: placeOfParts(own, border.board),
            })),
          };
    return { start: told(found.start), bySteps: found.bySteps.map(told) };
  }

  #setOf(sheets: readonly string[]): SheetSet {
    return sheets.reduce((set, id) => set | (1 << this.#ids.indexOf(id)), 0);
  }

  /** Saws the lines of a step, and first of each run the way to it; the step with its ways. */
  #sawWays(pass: Pass, i: number, held: SheetSet): CutStep {
    const { edges } = this.#relief.map;
    const step = pass.steps[i];
    const onBoard = isOnBoard(this.#relief, pass, step);
    const waysIn: WayIn[] = [];
    let by = step.start.by;
    let run = -1;
    let end = -1;
    step.edges.forEach((edge, k) => {
      const [from, to] = step.forward[k]
        ? [edges[edge].from, edges[edge].to]
        : [edges[edge].to, edges[edge].from];
      if (from !== end) {
        run++;
        const found = this.#comeTo(
          pass,
          i,
          { run, node: from, edge, forward: step.forward[k] },
          held,
          onBoard,
        );
        if (run === 0 && found.by !== undefined) by = found.by;
        if (found.way !== null) waysIn.push(found.way);
      }
      end = to;
      this.#sawn[edge] |= held;
    });
    const length = waysIn.reduce((sum, way) => sum + way.length, 0);
    const work = { height: pass.height, corners: 0, threaded: false, drilled: false };
    return {
      ...step,
      ...(by === step.start.by ? {} : { start: { ...step.start, by } as CutStart }),
      ...(waysIn.length === 0 ? {} : { waysIn }),
      length: step.length + length,
      minutes: step.minutes + sawMinutes(this.#workshop, { ...work, length }),
    };
  }

  /** How the blade comes to the beginning of a run: through what, and by which way. */
  #comeTo(pass: Pass, i: number, run: RunStart, held: SheetSet, onBoard: boolean): Coming {
    const { start } = pass.steps[i];
    const isFirst = run.run === 0;
    const comes = { by: isFirst ? start.by : undefined, way: null };
    const { node } = run;
    const enclosed =
      onBoard && isFirst && start.by === 'gap' && start.outside === true && !this.#leadsOut(node, held);
    if (isFirst && (start.threaded || (start.by !== 'board' && start.by !== 'waste' && !enclosed)))
      return comes;
    if (!onBoard) return isFirst && start.by === 'board' ? { by: 'gap', way: null } : comes;
    const isBorder = this.#nodes.has(node);
    if (!isBorder && !isFirst) return comes;
    if (isBorder && this.#waste.isOff(node, held)) return { by: 'gap', way: null };
    if (!enclosed && someLineAt(this.#graph, node, (e) => this.#isOpenLine(e, held))) {
      const open = this.#ways.findIndex((way) => way.node === node && holdsAll(way.sheets, held));
      if (open < 0) return { by: 'kerf', way: null };
      const way = isFirst ? this.#wayIn(run.run, this.#chain(open), 'open', 0, held) : null;
      return { by: 'board', way };
    }
    const at = isFirst ? start.at : this.#beginning(run);
    const before = start.outside === true ? undefined : pass.steps[i - 1];
    const through = isBorder ? null : this.#cutoutAt(node, held, before?.edges ?? []);
    if (!isBorder && through === null) return comes;
    const way = this.#newWay(run.run, node, at, held, through);
    return { by: 'board', way };
  }

  /** Nothing holds at a line: it is sawn, or what lay beside it is gone. */
  #isOpenLine(e: number, held: SheetSet): boolean {
    const { left, right } = this.#relief.map.edges[e];
    const isGone = (r: number): boolean => r !== OUTSIDE && holdsAll(this.#gone[r], held);
    return holdsAll(this.#sawn[e], held) || isGone(left) || isGone(right);
  }

  /** The gap that the blade comes through is open to the outline: one that was sawn from a hole may not be. */
  #leadsOut(node: number, held: SheetSet): boolean {
    return leadsOut(this.#relief.map, this.#graph, node, {
      isOpenLine: (e) => this.#isOpenLine(e, held),
      isGone: (r) => holdsAll(this.#gone[r], held),
      isOutline: (n) => this.#nodes.has(n),
    });
  }

  #beginning({ edge, forward }: RunStart): Point {
    const xy = this.#shapes.chords(edge);
    return forward ? [xy[0], xy[1]] : [xy[xy.length - 2], xy[xy.length - 1]];
  }

  /** The waste inside the outline that the blade has to go through to a node, where nothing of it is open yet. */
  #cutoutAt(node: number, held: SheetSet, lastSawn: readonly number[]): Cutout | null {
    const cutout = cutoutAt(this.#relief.map, this.#graph, node, (r) => this.#isWaste(r, held));
    if (cutout === null || !cutout.lines.some((e) => this.#isBorder[e] === 1)) return null;
    const { edges } = this.#relief.map;
    const blade = new Set(lastSawn.flatMap((e) => [edges[e].from, edges[e].to]));
    // A kerf counts where it comes to the outline, the blade is in it, or a way leads to it: others may be sawn through a hole.
    const isReached = (e: number): boolean => {
      const ends = [edges[e].from, edges[e].to];
      if (ends.some((end) => blade.has(end))) return true;
      if (ends.some((end) => this.#nodes.has(end)) && this.#isOpenLine(e, held)) return true;
      return this.#ways.some((way) => ends.includes(way.node) && holdsAll(way.sheets, held));
    };
    return cutout.lines.some(isReached) ? null : cutout;
  }

  #wayIn(run: number, points: readonly Point[], from: WayIn['from'], length: number, held: SheetSet): WayIn {
    return { run, points, from, length, parts: this.#waste.counts(held) };
  }

  /** Saws a way to a node, the shortest that is found. @param through waste inside the outline that it may cross */
  #newWay(run: number, node: number, at: Point, held: SheetSet, through: Cutout | null): WayIn | null {
    const own = this.#ways.findIndex((way) => way.node === node);
    const deeper = own < 0 ? Number.POSITIVE_INFINITY : this.#deepening(own, held);
    if (Number.isFinite(deeper)) {
      this.#deepen(own, held);
      return this.#wayIn(run, this.#chain(own), 'edge', deeper, held);
    }
    const border = this.#border;
    const found = findWay(
      {
        field: through === null ? border.field : openField(border, through, this.#shapes),
        board: border.board,
        ways: this.#ways.map(({ points }) => points),
        sources: this.#sources(held),
        leadsIn: (towards) =>
          through === null
            ? this.#waste.leadsIn(node, towards)
            : leadsIntoCutout(through, at, towards, this.#shapes),
      },
      at,
    );
    if (found === null) return null;
    const { points, source } = found;
    const cost = source.extra + lengthOf(points);
    if (source.way >= 0) this.#deepen(source.way, held);
    const inBoard = through === null ? points : upToLines(points, border, through, this.#shapes);
    const way = { points, inBoard, parent: source.way, from: source.kind, node, sheets: held };
    this.#ways.push(way);
    this.#cut(this.#ways.length - 1, held);
    const drawn = source.extra > 0 ? [...this.#chainTo(source.way, points[0]), ...points.slice(1)] : points;
    return this.#wayIn(run, drawn, source.extra > 0 ? 'edge' : source.kind, cost, held);
  }

  #cut(w: number, held: SheetSet): void {
    const { points, inBoard, node } = this.#ways[w];
    this.#wayAt.set(w, this.#step);
    this.#waste.cut(inBoard, w, inBoard === points ? node : -1, held);
  }

  /** All that a new way may begin at, besides the edge of the board. */
  #sources(held: SheetSet): WaySource[] {
    const ways = this.#ways.flatMap((way, w): WaySource[] => {
      const extra = this.#deepening(w, held);
      return Number.isFinite(extra) ? [{ kind: 'way', way: w, extra, points: pointsOn(way.inBoard) }] : [];
    });
    const kerf: Point[] = [];
    for (const loop of this.#border.loops) {
      loop.forEach(({ line, at }, i) => {
        const before = loop[(i + loop.length - 1) % loop.length].line;
        const isKerf = [line, before].some((e) => e >= 0 && holdsAll(this.#sawn[e], held));
        if (isKerf) kerf.push(at);
      });
    }
    return [...ways, { kind: 'kerf', way: -1, extra: 0, points: kerf }];
  }

  /** What is still to be sawn of a way, and of those that lead to it, to have it open through all sheets held, mm. */
  #deepening(w: number, held: SheetSet): number {
    const { points, parent, from, sheets } = this.#ways[w];
    if (holdsAll(sheets, held)) return 0;
    if (from === 'kerf') return Number.POSITIVE_INFINITY;
    return lengthOf(points) + (parent < 0 ? 0 : this.#deepening(parent, held));
  }

  #deepen(w: number, held: SheetSet): void {
    const way = this.#ways[w];
    if (holdsAll(way.sheets, held)) return;
    if (way.parent >= 0) this.#deepen(way.parent, held);
    way.sheets |= held;
    this.#cut(w, held);
  }

  /** A way from its very beginning. */
  #chain(w: number): Point[] {
    const { points, parent } = this.#ways[w];
    return parent < 0 ? [...points] : [...this.#chainTo(parent, points[0]), ...points.slice(1)];
  }

  /** The chain of a way up to a place on it. */
  #chainTo(w: number, place: Point): Point[] {
    const chain = this.#chain(w);
    const upTo = chain.findIndex((p, i) => i > 0 && isBetween(chain[i - 1], p, place));
    return upTo < 0 ? chain : [...chain.slice(0, upTo), place];
  }

  /** Takes off what a step frees; what comes off of the waste with it. */
  #settle(step: CutStep, held: SheetSet): Pick<CutStep, 'wasteOff' | 'heldBy'> {
    for (const { regions, sheets } of step.fallsOut ?? []) {
      const out = this.#setOf(sheets);
      for (const r of regions) this.#gone[r] |= out;
    }
    if (step.frees === 'piece' || step.frees === 'waste') for (const r of step.regions) this.#gone[r] |= held;
    if (!step.edges.some((e) => this.#isBorder[e] === 1)) return {};
    const before = this.#waste.holding(held);
    const off = this.#waste.takeOff(held, (line) => this.#openAt(line));
    if (off.length === 0) return {};
    const wasteOff = mergedWaste(off).map(
      ({ part, sheets }): LooseWaste => looseWaste(part, this.#border.board, this.#names(sheets)),
    );
    const after = this.#waste.holding(held);
    return { wasteOff, ...(after === before ? {} : { heldBy: after }) };
  }

  #names(set: SheetSet): string[] {
    return this.#ids.filter((_, j) => (set & (1 << j)) !== 0);
  }

  /** The sheets in which nothing holds at a line. */
  #openAt(line: number): SheetSet {
    const { left, right } = this.#relief.map.edges[line];
    const gone = (r: number): SheetSet => (r === OUTSIDE ? 0 : this.#gone[r]);
    return this.#sawn[line] | gone(left) | gone(right);
  }
}
