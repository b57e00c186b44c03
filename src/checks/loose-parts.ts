/** How parts hold on each other: for every node the nodes it touches, with the area of contact, both ways. */
export type ContactGraph = Map<number, Map<number, number>>;

/** Nodes that come off together, and the area that holds them. */
export interface LoosePart {
  readonly nodes: readonly number[];
  /** mm² */
  readonly held: number;
}

/** Areas that differ by less than this, mm², are equal: sums of lengths times heights round in their last bits. */
const CONTACT_ROUNDING = 1e-6;

/** Adds contact between two nodes. */
export function addContact(graph: ContactGraph, a: number, b: number, area: number): void {
  const [atA, atB] = [contactsOf(graph, a), contactsOf(graph, b)];
  atA.set(b, (atA.get(b) ?? 0) + area);
  atB.set(a, (atB.get(a) ?? 0) + area);
}

/**
 * The sets of nodes that are held on the rest by less than `least` in all: what a cut of least contact separates
 * from the largest part.
 *
 * 1. Nodes with enough contact between them are never parted by so small a cut: they are joined, over and over.
 * 2. For each node that is left, the smallest cut between it and the main node is the largest flow between them
 *    (Ford and Fulkerson 1956, by shortest ways), followed only up to `least`. Where that is reached the node is
 *    joined to the main one; else the nodes on its side of the cut are a loose part.
 *
 * @param size of each node, to find the largest part; nodes without contact may be absent from the graph.
 */
export function findLooseParts(
  graph: ContactGraph,
  size: ReadonlyMap<number, number>,
  least: number,
): LoosePart[] {
  const enough = least - CONTACT_ROUNDING;
  const members = new Map([...size.keys()].map((node) => [node, [node]]));
  const joined = new Map([...size.keys()].map((node) => [node, new Map(graph.get(node))]));
  for (const node of size.keys()) joinStrong(joined, members, node, enough);
  const weight = (node: number): number => members.get(node)!.reduce((sum, each) => sum + size.get(each)!, 0);
  const main = [...joined.keys()].reduce((best, node) => (weight(node) > weight(best) ? node : best));
  const parts: LoosePart[] = [];
  const done = new Set([main]);
  for (const node of [...joined.keys()]) {
    if (done.has(node) || !joined.has(node)) continue;
    const { flow, side } = largestFlow(joined, node, main, enough);
    if (flow >= enough) {
      merge(joined, members, main, node);
      joinStrong(joined, members, main, enough);
    } else {
      for (const each of side) done.add(each);
      parts.push({ nodes: side.flatMap((each) => members.get(each)!).sort((a, b) => a - b), held: flow });
    }
  }
  return parts;
}

function contactsOf(graph: ContactGraph, node: number): Map<number, number> {
  let contacts = graph.get(node);
  if (contacts === undefined) {
    contacts = new Map();
    graph.set(node, contacts);
  }
  return contacts;
}

/** Joins everything to a node that has enough contact with it, and with what it has become. */
function joinStrong(graph: ContactGraph, members: Map<number, number[]>, node: number, enough: number): void {
  for (;;) {
    const contacts = graph.get(node);
    if (contacts === undefined) return;
    const strong = [...contacts].find(([, area]) => area >= enough);
    if (strong === undefined) return;
    merge(graph, members, node, strong[0]);
  }
}

/** Makes one node of two: `from` goes into `into`. */
function merge(graph: ContactGraph, members: Map<number, number[]>, into: number, from: number): void {
  const moved = graph.get(from)!;
  graph.delete(from);
  graph.get(into)!.delete(from);
  for (const [other, area] of moved) {
    if (other === into) continue;
    graph.get(other)!.delete(from);
    addContact(graph, into, other, area);
  }
  members.get(into)!.push(...members.get(from)!);
  members.delete(from);
}

interface Flow {
  readonly flow: number;
  /** Nodes on the source's side of the smallest cut. */
  readonly side: readonly number[];
}

function largestFlow(graph: ContactGraph, source: number, sink: number, enough: number): Flow {
  const used = new Map<number, Map<number, number>>();
  const usedAt = (a: number, b: number): number => used.get(a)?.get(b) ?? 0;
  let flow = 0;
  for (;;) {
    const cameFrom = new Map([[source, source]]);
    const reached = [source];
    for (const at of reached) {
      for (const [to, area] of graph.get(at)!) {
        if (cameFrom.has(to) || area - usedAt(at, to) <= CONTACT_ROUNDING) continue;
        cameFrom.set(to, at);
        reached.push(to);
      }
    }
    if (!cameFrom.has(sink)) return { flow, side: reached };
    let room = Number.POSITIVE_INFINITY;
    for (let at = sink; at !== source; at = cameFrom.get(at)!) {
      const before = cameFrom.get(at)!;
      room = Math.min(room, graph.get(before)!.get(at)! - usedAt(before, at));
    }
    for (let at = sink; at !== source; at = cameFrom.get(at)!) {
      const before = cameFrom.get(at)!;
      contactsOf(used, before).set(at, usedAt(before, at) + room);
      contactsOf(used, at).set(before, usedAt(at, before) - room);
    }
    flow += room;
    if (flow >= enough) return { flow, side: [] };
  }
}
