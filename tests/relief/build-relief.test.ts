import { describe, expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { buildRelief, renumber } from '../../src/relief/build-relief.js';
import { cellMiddle, cellRelief } from '../support/cells.js';

const STACK = '6 mm walnut, 3x 3 mm birch';
const RING = ['aaaaa', 'abbba', 'abcba', 'abbba', 'aaaaa'];

describe('buildRelief: pieces', () => {
  it('makes a body of the front sheets of each numbered region', () => {
    const { relief, of } = cellRelief(['ab'], { a: '1', b: '3' }, STACK);
    expect(relief.regions[of('a')]).toMatchObject({ role: 'piece', depth: 1, down: 0, height: 6 });
    expect(relief.regions[of('b')]).toMatchObject({ role: 'piece', depth: 3, down: 0, height: 12 });
    const body = relief.bodies[relief.regions[of('b')].body!];
    expect(body).toMatchObject({ order: ['s1', 's2', 's3'], thickness: 12, sheets: 3, region: of('b') });
  });

  it('counts heights from the back as continuous sheets', () => {
    const { relief, of } = cellRelief(['ab'], { a: '1', b: '3' }, STACK, { joint: 'continuous' });
    expect(relief.regions[of('a')].height).toBe(3);
    expect(relief.regions[of('b')].height).toBe(9);
    expect(relief.bodies[relief.regions[of('b')].body!].order).toEqual(['s2', 's3', 's4']);
  });

  it('leaves open what has no number', () => {
    const { relief, of } = cellRelief(['ab'], { a: '1' }, STACK);
    expect(relief.regions[of('b')]).toMatchObject({
      label: null,
      mark: null,
      role: null,
      depth: null,
      body: null,
      height: null,
    });
  });

  it('takes a number above the stack for the whole stack', () => {
    const { relief, of } = cellRelief(['ab'], { a: '1', b: '9' }, STACK);
    expect(relief.regions[of('b')]).toMatchObject({ label: '9', depth: 4, height: 15 });
  });
});

describe('buildRelief: cutouts', () => {
  it('cuts a recess into the one piece around it', () => {
    const { relief, of } = cellRelief(RING, { a: '3', b: '-1', c: '-1' }, STACK);
    expect(relief.clusters).toEqual([
      { regions: [of('b'), of('c')].sort(), host: of('a'), around: [of('a')], touchesOutside: false },
    ]);
    const body = relief.regions[of('a')].body;
    expect(relief.regions[of('b')]).toMatchObject({ role: 'recess', body, down: 1, depth: 2, height: 6 });
    expect(relief.bodies[body!].recesses).toEqual([of('b'), of('c')].sort());
  });

  it('counts a recess in a recess up', () => {
    const { relief, of } = cellRelief(RING, { a: '3', b: '-1', c: '-1' }, STACK);
    expect(relief.regions[of('c')]).toMatchObject({ role: 'recess', down: 2, depth: 1, height: 3 });
  });

  it('takes panes side by side for equally deep', () => {
    const panes = ['aaaaa', 'abcda', 'aefga', 'ahija', 'aaaaa'];
    const numbers = Object.fromEntries([...'bcdefghij'].map((letter) => [letter, '-1']));
    const { relief, of } = cellRelief(panes, { a: '2', ...numbers }, STACK);
    expect(relief.clusters).toHaveLength(1);
    for (const pane of 'bcdefghij') expect(relief.regions[of(pane)].down).toBe(1);
  });

  it('makes an opening of a recess as deep as its host, or deeper', () => {
    for (const label of ['-3', '-4', '0']) {
      const { relief, of } = cellRelief(['aaa', 'aba', 'aaa'], { a: '3', b: label }, STACK);
      expect(relief.regions[of('b')]).toMatchObject({ role: 'opening', down: 3, depth: 0, height: 0 });
      expect(relief.bodies[relief.regions[of('a')].body!].openings).toEqual([of('b')]);
    }
  });

  it('finds the host past an island that the cluster encloses', () => {
    const { relief, of } = cellRelief(RING, { a: '3', b: '-1', c: '2' }, STACK);
    expect(relief.clusters[0]).toMatchObject({ host: of('a'), around: [of('a')] });
  });

  it('finds the host past several islands in the holes of a lattice', () => {
    const lattice = ['aaaaaaa', 'abbbbba', 'abcbdba', 'abbbbba', 'aaaaaaa'];
    const { relief, of } = cellRelief(lattice, { a: '3', b: '-1', c: '2', d: '1' }, STACK);
    expect(relief.clusters[0]).toMatchObject({ host: of('a'), around: [of('a')] });
  });

  it('gives a recess between two pieces no host', () => {
    const { relief, of } = cellRelief(['aabb', 'accb', 'aabb'], { a: '3', b: '2', c: '-1' }, STACK);
    expect(relief.clusters[0]).toMatchObject({ host: null, around: [of('a'), of('b')].sort() });
    expect(relief.regions[of('c')]).toMatchObject({ role: 'recess', body: null, asked: 1, height: null });
  });

  it('calls an opening between several pieces, or at the outside, a void', () => {
    const between = cellRelief(['aabb', 'accb', 'aabb'], { a: '3', b: '2', c: '0' }, STACK);
    expect(between.relief.regions[between.of('c')]).toMatchObject({ role: 'void', body: null, height: 0 });
    const edge = cellRelief(['aaa', 'aba'], { a: '3', b: '0' }, STACK);
    expect(edge.relief.regions[edge.of('b')]).toMatchObject({ role: 'void', body: null });
  });

  it('does not count meeting in a point', () => {
    const { relief, of } = cellRelief(['aaab', 'acab', 'aaab', 'bbbb'], { a: '3', b: '2', c: '-1' }, STACK);
    expect(relief.clusters[0].host).toBe(of('a'));
    const corner = cellRelief(['aad', 'acd', 'eed'], { a: '3', c: '-1', d: '3', e: '3' }, STACK);
    expect(corner.relief.clusters[0].around).toHaveLength(3);
  });

  it('takes away levels from the front as continuous sheets', () => {
    const { relief, of } = cellRelief(['aaa', 'aba', 'aaa'], { a: '4', b: '-1' }, STACK, {
      joint: 'continuous',
    });
    expect(relief.regions[of('b')]).toMatchObject({ role: 'recess', depth: 3, height: 9 });
  });
});

describe('buildRelief: add-ons with shared outline', () => {
  const rows = ['aaaab', 'accab', 'aaaab'];

  it('rest on the surround with the longest border', () => {
    const { relief, of } = cellRelief(rows, { a: '2', b: '1', c: '+' }, STACK);
    expect(relief.addOns).toMatchObject([
      { id: 'a1', region: of('c'), sheets: 1, seats: [of('a')], shared: true, order: ['s1'], thickness: 6 },
    ]);
    expect(relief.regions[of('c')]).toMatchObject({ role: 'add-on', depth: 2, height: 15 });
    expect(relief.bodies[relief.regions[of('a')].body!].covered).toEqual([of('c')]);
  });

  it('lie in a recess as deep as it is, and do not split its group', () => {
    const rows = ['aaaaa', 'abcda', 'abcda', 'abcda', 'aaaaa'];
    const { relief, of } = cellRelief(rows, { a: '3', b: '-1', c: '+', d: '-1' }, STACK);
    expect(relief.clusters).toHaveLength(1);
    const body = relief.regions[of('a')].body;
    expect(relief.regions[of('c')]).toMatchObject({ role: 'add-on', body, down: 1, depth: 2, height: 12 });
  });

  it('in add-ons rest on what carries those', () => {
    const { relief, of } = cellRelief(RING, { a: '2', b: '+', c: '+' }, STACK);
    expect(relief.addOns.map((addOn) => addOn.seats)).toEqual([[of('a')], [of('a')]]);
  });
});

describe('renumber', () => {
  it('gives what building anew gives', () => {
    const { relief, of } = cellRelief(RING, { a: '3', b: '-1', c: '1' }, STACK);
    const numbers = [{ at: cellMiddle([2, 2]), depth: '2', face: 's2', name: 'sun' }];
    const anew = buildRelief(relief.map, { stack: relief.stack, numbers });
    expect(renumber(relief, { numbers })).toEqual(anew);
    expect(
      renumber(renumber(relief, { numbers: [{ at: cellMiddle([2, 2]), depth: 1 }] }), { numbers }),
    ).toEqual(anew);
    expect(renumber(relief, { joint: 'continuous' }).regions[of('a')].height).toBe(9);
  });

  it('leaves the given relief as it was', () => {
    const { relief } = cellRelief(RING, { a: '3', b: '-1', c: '1' }, STACK);
    const before = JSON.stringify(relief);
    renumber(relief, { numbers: [{ at: cellMiddle([2, 2]), depth: '2' }] });
    expect(JSON.stringify(relief)).toBe(before);
  });

  it('throws on an entry without a place', () => {
    const { relief } = cellRelief(['a'], { a: '1' }, STACK);
    expect(() => renumber(relief, { numbers: [{ depth: 1 }] })).toThrow(PlystepError);
  });
});
