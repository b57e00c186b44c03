import { OUTSIDE } from '../plane/region-map.js';
import type { Relief } from '../relief/relief.js';
import type { GlueStep, GlueUp } from './cut-plan.js';
import { DisjointSets } from './disjoint-sets.js';
import { NodeQueue } from './node-queue.js';
import { type Contact, pieceContacts } from './piece-contacts.js';

/**
 * A piece with less glued contact than this asks for a backing board, mm². Common practice, no source: a square
 * centimetre holds a small piece.
 */
export const LEAST_CONTACT = 100;

/** The last assembly: all that is left. */
const WHOLE = 'whole picture';

/**
 * The order in which the pieces of a relief are put together, on a flat board so that all backs are flush.
 *
 * Pieces that sit together in a hole of another piece are put together first, as an assembly of their own, the
 * innermost first; one that sits there alone goes in right after its host. The host of an assembly that begins the whole
 * picture is laid down before all others, as the form that the assembly is built up in. In an assembly the piece with the
 * most contact comes first, then always the one that has the most contact with what is there already (Prim
 * 1957, on contact areas). Add-ons come last.
 */
export function glueUp(relief: Relief): GlueUp {
  const contacts = pieceContacts(relief);
  const links = linksOf(relief.bodies.length, contacts);
  const groups = splitGroups(relief, contacts);
  const inserts = new Map<number, Insert[]>();
  const insert = (host: number, item: Insert): void => {
    const list = inserts.get(host);
    if (list === undefined) inserts.set(host, [item]);
    else list.push(item);
  };
  const steps: GlueStep[] = [];
  let count = 0;
  for (const { host, members } of groups) {
    if (host >= 0 && members.length === 1) {
      insert(host, { kind: 'piece', body: members[0] });
      continue;
    }
    const assembly = host < 0 ? WHOLE : `assembly ${++count}, for the hole in ${pieceName(relief, host)}`;
    steps.push(...joinUp(relief, members, links, inserts, assembly));
    if (host >= 0) insert(host, { kind: 'assembly', name: assembly });
  }
  const total = links.map((list) => list.reduce((sum, { area }) => sum + area, 0));
  const weak = relief.bodies.flatMap(({ id }, i) => (total[i] < LEAST_CONTACT ? [id] : []));
  return {
    steps: formFirst(steps),
    addOns: relief.addOns.map(({ id, seats }) => ({ piece: id, seats })),
    backing: weak.length > 0 && relief.bodies.length > 1 ? { pieces: weak, needed: LEAST_CONTACT } : null,
  };
}

/** The piece that the whole picture begins with comes first of all where an assembly is built up in its hole. */
function formFirst(steps: readonly GlueStep[]): GlueStep[] {
  const first = steps.findIndex(({ assembly }) => assembly === WHOLE);
  const isForm = steps.some(
    ({ kind, to, assembly }) => kind === 'assembly' && assembly === WHOLE && to.includes(steps[first].item),
  );
  return isForm ? [steps[first], ...steps.slice(0, first), ...steps.slice(first + 1)] : [...steps];
}

/** What goes into a hole of a piece once that is in place. */
type Insert =
  | { readonly kind: 'piece'; readonly body: number }
  | { readonly kind: 'assembly'; readonly name: string };

interface Link {
  readonly other: number;
  readonly area: number;
}

/** The contacts of each body. */
function linksOf(bodies: number, contacts: readonly Contact[]): Link[][] {
  const links: Link[][] = Array.from({ length: bodies }, () => []);
  for (const { a, b, area } of contacts) {
    links[a].push({ other: b, area });
    links[b].push({ other: a, area });
  }
  return links;
}

interface Group {
  /** The body in whose hole the members sit; -1: none. */
  readonly host: number;
  /** Bodies that touch each other, directly or by others. */
  readonly members: readonly number[];
}

/** Bodies that are put together by themselves, the innermost first. */
function splitGroups(relief: Relief, contacts: readonly Contact[]): Group[] {
  const { map, regions, bodies } = relief;
  const host = bodies.map(({ region }) => {
    for (let r = map.regions[region].inside; r !== OUTSIDE; r = map.regions[r].inside) {
      // What lies under an add-on may belong to a piece inside it, which is no host.
      const { body, role } = regions[r];
      if (body !== null && role !== 'add-on') return body;
    }
    return -1;
  });
  const level = new Map<number, number>([[-1, 0]]);
  const levelOf = (body: number): number => {
    if (!level.has(body)) level.set(body, 1 + levelOf(host[body]));
    return level.get(body)!;
  };
  const sets = new DisjointSets(bodies.length);
  for (const { a, b } of contacts) if (host[a] === host[b]) sets.join(a, b);
  const groups = new Map<string, { host: number; members: number[] }>();
  bodies.forEach((_, i) => {
    const key = host[i] < 0 ? 'whole' : `${host[i]} ${sets.find(i)}`;
    const group = groups.get(key);
    if (group === undefined) groups.set(key, { host: host[i], members: [i] });
    else group.members.push(i);
  });
  const order = (a: Group, b: Group): number =>
    levelOf(b.host) - levelOf(a.host) || a.host - b.host || a.members[0] - b.members[0];
  return [...groups.values()].sort(order);
}

function pieceName(relief: Relief, body: number): string {
  const { id, region } = relief.bodies[body];
  const name = relief.regions[region].name;
  return name === null ? id : `${id} ${name}`;
}

function joinUp(
  relief: Relief,
  own: readonly number[],
  links: readonly (readonly Link[])[],
  inserts: ReadonlyMap<number, readonly Insert[]>,
  assembly: string,
): GlueStep[] {
  const members = new Set(own);
  const inside = own.map((body) => links[body].filter(({ other }) => members.has(other)));
  const linksIn = new Map(own.map((body, i) => [body, inside[i]]));
  const weight = new Map(own.map((body, i) => [body, inside[i].reduce((sum, { area }) => sum + area, 0)]));
  const seeds = [...own].sort((a, b) => weight.get(b)! - weight.get(a)! || a - b);
  const held = new Map<number, number>();
  const placed = new Set<number>();
  const queue = new NodeQueue();
  const steps: GlueStep[] = [];
  const idOf = (body: number): string => relief.bodies[body].id;
  const fill = (host: number): void => {
    for (const item of inserts.get(host) ?? []) {
      const to = [idOf(host)];
      if (item.kind === 'assembly') {
        steps.push({ assembly, item: item.name, kind: 'assembly', to, contact: 0 });
        continue;
      }
      const contact = links[item.body].find(({ other }) => other === host)?.area ?? 0;
      steps.push({ assembly, item: idOf(item.body), kind: 'piece', to, contact });
      fill(item.body);
    }
  };
  const place = (body: number): void => {
    placed.add(body);
    const to = linksIn.get(body)!.filter(({ other }) => placed.has(other));
    const contact = held.get(body) ?? 0;
    steps.push({
      assembly,
      item: idOf(body),
      kind: 'piece',
      to: to.map(({ other }) => idOf(other)),
      contact,
    });
    fill(body);
    for (const { other, area } of linksIn.get(body)!) {
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
