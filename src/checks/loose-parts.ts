/** Two nodes that touch, and the area of contact, mm². Several for one pair add up. */
export type Contact = readonly [a: number, b: number, area: number];

/** For every node the nodes it touches, with the area of contact, both ways. */
type ContactGraph = Map<number, Map<number, number>>;

/** Nodes that come off together, and the area that holds them. */
export interface LoosePart {
  readonly nodes: readonly number[];
  /** mm² */
  readonly held: number;
}

/** Areas that differ by less than this, mm², are equal: sums of lengths times heights round in their last bits. */
const CONTACT_ROUNDING = 1e-6;

/**
 * The sets of nodes that are held on the rest by less than `least` in all: what a cut of least contact separates
 * from the largest part.
 *
 * 1. Nodes with enough contact between them are never parted by so small a cut: they are joined, over and over.
 * 2. For each node that is left, the smallest cut between it and the main node is the largest flow between them
 *    (Ford and Fulkerson 1956, by shortest ways), followed only up to `least`. Where that is reached the node is
 *    joined to the main one; else the nodes on its side of the cut are a loose part.
 *
 * Step 1 is linear in the contacts for each round, and a few rounds do; only what is left after it costs more.
 *
 * @param size of each node, to find the largest part.
 */
export function findLooseParts(
  contacts: readonly Contact[],
  size: ReadonlyMap<number, number>,
  least: number,
): LoosePart[] {
  const enough = least - CONTACT_ROUNDING;
  const { graph, members } = joinAllStrong(contacts, size, enough);
  const weight = (node: number): number => members.get(node)!.reduce((sum, each) => sum + size.get(each)!, 0);
  const main = [...graph.keys()].reduce((best, node) => (weight(node) > weight(best) ? node : best));
  const parts: LoosePart[] = [];
  const done = new Set([main]);
  for (const node of [...graph.keys()]) {
    if (done.has(node) || !graph.has(node)) continue;
    const { flow, side } = largestFlow(graph, node, main, enough);
    if (flow >= enough) {
      merge(graph, members, main, node);
      joinStrong(graph, members, main, enough);
    } else {
      for (const each of side) done.add(each);
      parts.push({ nodes: side.flatMap((each) => members.get(each)!).sort((a, b) => a - b), held: flow });
    }
  }
  return parts;
}

/** Joins nodes with enough contact until there are none left; the graph and the nodes of each of its nodes. */
function joinAllStrong(
  contacts: readonly Contact[],
  size: ReadonlyMap<number, number>,
  enough: number,
): { graph: ContactGraph; members: Map<number, number[]> } {
  const nodes = [...size.keys()];
  const parent = new Map(nodes.map((node) => [node, node]));
  const root = (node: number): number => {
    let at = node;
    for (let up = parent.get(at)!; up !== at; up = parent.get(at)!) {
      parent.set(at, parent.get(up)!);
      at = up;
    }
    return at;
  };
  let graph: ContactGraph = new Map();
  for (let joined = true; joined; ) {
    joined = false;
    graph = new Map();
    for (const [a, b, area] of contacts) {
      const [p, q] = [root(a), root(b)];
      if (p === q) continue;
      if (addContact(graph, p, q, area) < enough) continue;
      parent.set(q, p);
      joined = true;
    }
  }
  const members = new Map<number, number[]>();
  for (const node of nodes) {
    const top = root(node);
    contactsOf(graph, top);
    const own = members.get(top);
    if (own === undefined) members.set(top, [node]);
    else own.push(node);
  }
  return { graph, members };
}

/** Adds contact between two nodes; gives their contact in all. */
function addContact(graph: ContactGraph, a: number, b: number, area: number): number {
  const atA = contactsOf(graph, a);
  const sum = (atA.get(b) ?? 0) + area;
  atA.set(b, sum);
  contactsOf(graph, b).set(a, sum);
  return sum;
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
