import { OUTSIDE, type RegionMap } from '../../src/plane/region-map.js';
import type { Relief } from '../../src/relief/relief.js';

/** Holes and threadings of one order of the cuts. */
export type Count = readonly [holes: number, threadings: number];

/** Where the blade is in a state of the search: nowhere, or at a node. */
type Blade = number | null;

/**
 * The fewest holes, then threadings, with which a relief of pieces and openings can be sawn: tried out over all
 * orders of the cuts of each pass and all ways for the blade to come in. Written from the rules of the trade,
 * with nothing of the planner: a line is sawn in the pass of the higher of its two sides; the blade comes in
 * from the edge, goes on from where it is, through an open place, or through a hole, along kerfs, waste and
 * lines that this pass saws. What stands apart from the rest is sawn by itself, in from its own edge.
 */
export function fewestHoles(relief: Relief): Count {
  let [holes, threadings] = [0, 0];
  for (let pass = relief.stack.sheets.length; pass >= 1; pass--) {
    const [h, t] = fewestInPass(relief, pass);
    holes += h;
    threadings += t;
  }
  return [holes, threadings];
}

/** The number of the pass in which a region's own outline is sawn; 0 for voids and the outside. */
function passOf(relief: Relief, region: number): number {
  if (region === OUTSIDE) return 0;
  const { body } = relief.regions[region];
  return body === null ? 0 : relief.bodies[body].sheets;
}

function isWaste(relief: Relief, region: number): boolean {
  if (region === OUTSIDE) return true;
  const { role } = relief.regions[region];
  return role === 'opening' || role === 'void';
}

function fewestInPass(relief: Relief, pass: number): Count {
  const { map } = relief;
  const linePass = map.edges.map(({ left, right }) => {
    const sides = [left, right];
    // Two openings of one piece, or waste and waste, are not parted.
    if (sides.every((r) => isWaste(relief, r))) return 0;
    return Math.max(...sides.map((r) => passOf(relief, r)));
  });
  let [holes, threadings] = [0, 0];
  for (const block of standing(relief, pass, linePass)) {
    const [h, t] = fewestInBlock(relief, pass, linePass, block);
    holes += h;
    threadings += t;
  }
  return [holes, threadings];
}

/** What hangs together before a pass: regions, and OUTSIDE for the board around them. */
function standing(relief: Relief, pass: number, linePass: readonly number[]): ReadonlySet<number>[] {
  const { map } = relief;
  const isGone = (r: number): boolean => (r === OUTSIDE ? relief.frame !== 'cut' : passOf(relief, r) > pass);
  const left = new Set([OUTSIDE, ...map.regions.keys()].filter((r) => !isGone(r)));
  const blocks: Set<number>[] = [];
  for (const first of left) {
    const block = new Set([first]);
    for (const r of block) {
      left.delete(r);
      map.edges.forEach((edge, e) => {
        if (linePass[e] > pass || (edge.left !== r && edge.right !== r)) return;
        const other = edge.left === r ? edge.right : edge.left;
        if (!isGone(other)) block.add(other);
      });
    }
    blocks.push(block);
  }
  return blocks;
}

function fewestInBlock(
  relief: Relief,
  pass: number,
  linePass: readonly number[],
  block: ReadonlySet<number>,
): Count {
  const { map } = relief;
  // What is not of the block is air, on all sides or in its holes.
  const isPassable = (r: number): boolean => {
    if (r === OUTSIDE || !block.has(r) || relief.regions[r].role === 'void') return true;
    return isWaste(relief, r) && passOf(relief, r) === pass;
  };
  const isOpen = (r: number): boolean => r !== OUTSIDE && !block.has(r);
  const due = new Set(map.edges.flatMap((_, e) => (linePass[e] === pass ? [e] : [])));
  const tasks = cuts(relief, pass, due)
    .filter(({ region }) => block.has(region))
    .map(({ lines }) => lines);
  const around = new Map([OUTSIDE, ...map.regions.keys()].map((r) => [r, nodesOf(map, r)]));
  let best: Count = [Number.POSITIVE_INFINITY, Number.POSITIVE_INFINITY];
  // What was sawn and where the blade was decide all that follows, so a dearer way to the same is given up.
  const seen = new Map<string, Count>();

  const search = (left: readonly number[][], sawn: ReadonlySet<number>, blade: Blade, cost: Count): void => {
    if (!isLess(cost, best)) return;
    const state = `${[...sawn].sort((a, b) => a - b)} ${blade}`;
    const before = seen.get(state);
    if (before !== undefined && !isLess(cost, before)) return;
    seen.set(state, cost);
    const open = left.map((lines) => lines.filter((e) => !sawn.has(e))).filter((lines) => lines.length > 0);
    if (open.length === 0) {
      best = cost;
      return;
    }
    open.forEach((lines, i) => {
      const rest = open.filter((_, j) => j !== i);
      for (const { way, holes, threadings } of entries(lines, sawn, blade)) {
        const after = new Set([...sawn, ...lines, ...way]);
        search(rest, after, map.edges[lines[0]].from, [cost[0] + holes, cost[1] + threadings]);
      }
    });
  };
  const entries = (lines: readonly number[], sawn: ReadonlySet<number>, blade: Blade) => {
    const found: { way: readonly number[]; holes: number; threadings: number }[] = [];
    const goals = new Set(lines.flatMap((e) => [map.edges[e].from, map.edges[e].to]));
    const from = (nodes: readonly number[], threadings: number): void => {
      const way = shortestWay(map, around, nodes, goals, due, sawn, isPassable);
      if (way !== null) found.push({ way, holes: 0, threadings });
    };
    from(around.get(OUTSIDE)!, 0);
    if (blade !== null) from([blade], 0);
    map.regions.forEach((_, r) => {
      if (isOpen(r)) from(around.get(r)!, 1);
    });
    found.push({ way: [], holes: 1, threadings: 1 });
    return found;
  };
  search(tasks, new Set(), null, [0, 0]);
  return best;
}

/** The cuts of a pass: for each region that comes free, its lines, those that hang together being one cut. */
function cuts(relief: Relief, pass: number, due: ReadonlySet<number>): { region: number; lines: number[] }[] {
  const { map } = relief;
  return map.regions.flatMap((region, r) => {
    if (passOf(relief, r) !== pass) return [];
    const lines = region.loops.map((loop) => loop.map((step) => step.edge).filter((e) => due.has(e)));
    return joined(
      map,
      lines.filter((list) => list.length > 0),
    ).map((own) => ({ region: r, lines: own }));
  });
}

/** Lists of lines that share a node become one. */
function joined(map: RegionMap, lists: readonly number[][]): number[][] {
  const out: number[][] = [];
  for (const list of lists) {
    const nodes = new Set(list.flatMap((e) => [map.edges[e].from, map.edges[e].to]));
    const meets = out.findIndex((other) =>
      other.some((e) => nodes.has(map.edges[e].from) || nodes.has(map.edges[e].to)),
    );
    if (meets < 0) out.push(list);
    else out[meets] = [...out[meets], ...list];
  }
  return out;
}

function nodesOf(map: RegionMap, region: number): number[] {
  return map.edges.flatMap(({ from, to, left, right }) =>
    left === region || right === region ? [from, to] : [],
  );
}

/** Lines to be sawn on the way, fewest first, or null: along kerfs and through passable places costs nothing. */
function shortestWay(
  map: RegionMap,
  around: ReadonlyMap<number, readonly number[]>,
  from: readonly number[],
  goals: ReadonlySet<number>,
  due: ReadonlySet<number>,
  sawn: ReadonlySet<number>,
  isPassable: (region: number) => boolean,
): number[] | null {
  const ways = new Map<number, number[]>(from.map((node) => [node, []]));
  for (let changed = true; changed; ) {
    changed = false;
    const offer = (node: number, way: number[]): void => {
      if (ways.has(node) && ways.get(node)!.length <= way.length) return;
      ways.set(node, way);
      changed = true;
    };
    map.edges.forEach(({ from: a, to: b }, e) => {
      if (!due.has(e) && !sawn.has(e)) return;
      const extra = sawn.has(e) ? [] : [e];
      for (const [x, y] of [
        [a, b],
        [b, a],
      ]) {
        if (ways.has(x)) offer(y, [...ways.get(x)!, ...extra]);
      }
    });
    for (const [region, nodes] of around) {
      if (!isPassable(region)) continue;
      const known = nodes.filter((node) => ways.has(node)).map((node) => ways.get(node)!);
      if (known.length === 0) continue;
      const least = known.reduce((p, q) => (q.length < p.length ? q : p));
      for (const node of nodes) offer(node, least);
    }
  }
  const found = [...goals].flatMap((node) => (ways.has(node) ? [ways.get(node)!] : []));
  return found.length === 0 ? null : found.reduce((p, q) => (q.length < p.length ? q : p));
}

function isLess(a: Count, b: Count): boolean {
  return a[0] < b[0] || (a[0] === b[0] && a[1] < b[1]);
}
