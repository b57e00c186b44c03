/**
 * Outlines of states and countries as line work, each drawn whole, so that shared borders are drawn twice.
 * Which lands are neighbours is told by topojson-client from the arcs that they share (registry packages
 * us-atlas 3.0.1: US Census Bureau; world-atlas 2.0.2: Natural Earth). Known beside that: Missouri and
 * Tennessee border on eight states each; Arizona and Colorado, and Utah and New Mexico, meet in a point only;
 * Lesotho lies inside South Africa.
 */
import { describe, expect, it } from 'vitest';
import { verifyArrangement } from '../../src/plane/verify-arrangement.js';
import { type Land, landNeighbours, mapLands, readAtlas } from '../support/atlas.js';

const named = (lands: readonly Land[], name: string): number => lands.findIndex((land) => land.name === name);

/**
 * Pairs that share an arc on which one of the two has no area in the simplified outlines, by their FIPS numbers: the
 * independent city 51610 of Virginia is a single segment, the others are spikes of no width.
 */
const NO_AREA: Readonly<Record<string, readonly string[]>> = {
  'us-atlas/counties-10m.json': ['51610|51013', '51610|51059', '06075|06001', '06099|06001'],
};

describe.each([
  ['us-atlas/states-10m.json', 'states', 56],
  ['us-atlas/counties-10m.json', 'counties', 3231],
  ['world-atlas/countries-110m.json', 'countries', 177],
  ['world-atlas/countries-50m.json', 'countries', 241],
])('%s', (file, object, count) => {
  it('has the neighbours that its arcs tell', () => {
    const lands = readAtlas(file, object);
    expect(lands.length).toBe(count);
    const map = mapLands(lands);
    expect(verifyArrangement(map.arrangement)).toEqual([]);
    const found = landNeighbours(map, count);
    const missing: string[] = [];
    for (const [i, { id, neighbours }] of lands.entries()) {
      expect(found[i].filter((other) => !neighbours.includes(other))).toEqual([]);
      for (const j of neighbours) if (!found[i].includes(j)) missing.push(`${id}|${lands[j].id}`);
    }
    const both = (NO_AREA[file] ?? []).flatMap((pair) => [pair, pair.split('|').reverse().join('|')]);
    expect(missing.sort()).toEqual(both.sort());
  });
});

describe('states', () => {
  const lands = readAtlas('us-atlas/states-10m.json', 'states');
  const map = mapLands(lands);
  const around = landNeighbours(map, lands.length);

  it.each(['Missouri', 'Tennessee'])('%s borders on eight states', (name) => {
    expect(around[named(lands, name)].length).toBe(8);
  });

  it('four states meet in one point, and only beside each other share a border', () => {
    const [utah, colorado, mexico, arizona] = ['Utah', 'Colorado', 'New Mexico', 'Arizona'].map((name) =>
      named(lands, name),
    );
    expect(around[utah]).toContain(colorado);
    expect(around[colorado]).toContain(mexico);
    expect(around[mexico]).toContain(arizona);
    expect(around[arizona]).toContain(utah);
    expect(around[utah]).not.toContain(mexico);
    expect(around[arizona]).not.toContain(colorado);
    const { arrangement: a, landOfFace } = map;
    const landsAtNode = Array.from(a.nodeX, () => new Set<number>());
    for (let e = 0; e < a.edgeFrom.length; e++) {
      for (const v of [a.edgeFrom[e], a.edgeTo[e]]) {
        landsAtNode[v].add(landOfFace[a.edgeLeft[e]]);
        landsAtNode[v].add(landOfFace[a.edgeRight[e]]);
      }
    }
    const corners = landsAtNode.filter((at) => [utah, colorado, mexico, arizona].every((s) => at.has(s)));
    expect(corners.length).toBe(1);
  });
});

describe('countries', () => {
  it.each(['world-atlas/countries-110m.json', 'world-atlas/countries-50m.json'])(
    '%s: Lesotho lies inside South Africa',
    (file) => {
      const lands = readAtlas(file, 'countries');
      const { arrangement: a, landOfFace } = mapLands(lands);
      const face = landOfFace.indexOf(named(lands, 'Lesotho'));
      expect(landOfFace[a.faceInside[face]]).toBe(named(lands, 'South Africa'));
      expect(a.adjacencyStart[face + 1] - a.adjacencyStart[face]).toBe(1);
      expect(a.faceOutsideLength[face]).toBe(0);
    },
  );
});
