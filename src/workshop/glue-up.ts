import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { GlueStep, GlueUp } from './cut-plan.js';
import { NodeQueue } from './node-queue.js';
import { type Contact, pieceContacts } from './piece-contacts.js';

/**
 * A piece with less glued contact than this asks for a backing board, mm². Common practice, no source: a square
 * centimetre holds a small piece.
 */
export const LEAST_CONTACT = 100;

/**
 * The order in which the pieces of a relief are put together, face down or on a flat board so that all backs
 * are flush.
 *
 * Pieces that sit in a hole of one other piece are put together first, as an assembly of their own, the
 * innermost first. In an assembly the piece with the most contact comes first, then always the one that has
 * the most contact with what is there already (Prim 1957, on contact areas). Add-ons come last.
 */
export function glueUp(relief: Relief): GlueUp {
  const contacts = pieceContacts(relief);
  const assemblies = splitAssemblies(relief);
  const names = new Map(
    [...assemblies.keys()].map((host, i, all) => [host, nameOf(relief, host, i, all.length)]),
  );
  const steps = [...assemblies].flatMap(([host, bodies]) =>
    joinUp(relief, bodies, contacts, names, names.get(host)!),
  );
  const total = new Array<number>(relief.bodies.length).fill(0);
  for (const { a, b, area } of contacts) {
    total[a] += area;
    total[b] += area;
  }
  const weak = relief.bodies.flatMap(({ id }, i) => (total[i] < LEAST_CONTACT ? [id] : []));
  return {
    steps,
    addOns: relief.addOns.map(({ id, seats }) => ({ piece: id, seats })),
    backing: weak.length > 0 && relief.bodies.length > 1 ? { pieces: weak, needed: LEAST_CONTACT } : null,
  };
}

/** Bodies by the body in whose hole they sit (-1: none), the innermost assemblies first. */
function splitAssemblies(relief: Relief): Map<number, number[]> {
  const { map, regions, bodies } = relief;
  const holder = bodies.map(({ region }) => {
    for (let r = map.regions[region].inside; r !== OUTSIDE; r = map.regions[r].inside) {
      const body = regions[r].body;
      if (body !== null) return body;
    }
    return -1;
  });
  const levelOf = (body: number): number => (body < 0 ? 0 : 1 + levelOf(holder[body]));
  const assemblies = new Map<number, number[]>();
  bodies.forEach((_, i) => {
    const list = assemblies.get(holder[i]);
    if (list === undefined) assemblies.set(holder[i], [i]);
    else list.push(i);
  });
  return new Map([...assemblies].sort(([a], [b]) => levelOf(b) - levelOf(a) || a - b));
}

function nameOf(relief: Relief, host: number, place: number, count: number): string {
  if (host < 0) return count === 1 ? 'picture' : 'whole picture';
  const { id, region } = relief.bodies[host];
  const name = relief.regions[region].name;
  return `assembly ${place + 1}, for the hole in ${id}${name === null ? '' : ` (${name})`}`;
}

function joinUp(
  relief: Relief,
  own: readonly number[],
  contacts: readonly Contact[],
  names: ReadonlyMap<number, string>,
  assembly: string,
): GlueStep[] {
  const links = contactsOf(contacts, new Set(own));
  const linksOf = (body: number): readonly Link[] => links.get(body) ?? [];
  const weight = new Map(own.map((body) => [body, linksOf(body).reduce((sum, { area }) => sum + area, 0)]));
  const seeds = [...own].sort((a, b) => weight.get(b)! - weight.get(a)! || a - b);
  const held = new Map<number, number>();
  const placed = new Set<number>();
  const queue = new NodeQueue();
  const steps: GlueStep[] = [];
  const place = (body: number): void => {
    placed.add(body);
    const to = linksOf(body).filter(({ other }) => placed.has(other));
    steps.push({
      assembly,
      item: relief.bodies[body].id,
      kind: 'piece',
      to: to.map(({ other }) => relief.bodies[other].id),
      contact: held.get(body) ?? 0,
    });
    const inHole = names.get(body);
    if (inHole !== undefined) {
      steps.push({ assembly, item: inHole, kind: 'assembly', to: [relief.bodies[body].id], contact: 0 });
    }
    for (const { other, area } of linksOf(body)) {
      if (placed.has(other)) continue;
      held.set(other, (held.get(other) ?? 0) + area);
      queue.push(-held.get(other)!, other);
    }
  };
  for (const seed of seeds) {
    if (!placed.has(seed)) place(seed);
    for (let body = queue.pop(); body !== null; body = queue.pop()) if (!placed.has(body)) place(body);
  }
  return steps;
}

interface Link {
  readonly other: number;
  readonly area: number;
}

function contactsOf(contacts: readonly Contact[], members: ReadonlySet<number>): Map<number, Link[]> {
  const links = new Map<number, Link[]>();
  const add = (body: number, other: number, area: number): void => {
    const list = links.get(body);
    if (list === undefined) links.set(body, [{ other, area }]);
    else list.push({ other, area });
  };
  for (const { a, b, area } of contacts) {
    if (!members.has(a) || !members.has(b)) continue;
    add(a, b, area);
    add(b, a, area);
  }
  return links;
}
