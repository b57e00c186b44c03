import { describe, expect, it } from 'vitest';
import { areasOf, mapSvg } from './map-svg.js';

const SQUARE = '<path d="M10 10H50V50H10Z"/>';

describe('mapRegions', () => {
  it('gives each closed area a region with its true area', () => {
    const map = mapSvg(`${SQUARE}<circle cx="75" cy="75" r="10"/>`);
    expect(areasOf(map)[0]).toBeCloseTo(1600, 9);
    expect(areasOf(map)[1]).toBeCloseTo(Math.PI * 100, 9);
    expect(map.regions.map(({ id }) => id)).toEqual(['r1', 'r2']);
  });

  it('takes an island out of the region around it, and says what lies inside what', () => {
    const map = mapSvg(`${SQUARE}<circle cx="30" cy="30" r="15"/><circle cx="30" cy="30" r="5"/>`);
    expect(areasOf(map)).toEqual([
      expect.closeTo(1600 - Math.PI * 225, 8),
      expect.closeTo(Math.PI * 200, 8),
      expect.closeTo(Math.PI * 25, 8),
    ]);
    const ring = map.regions.find(({ loops, area }) => loops.length === 2 && area < 700)!;
    const core = map.regions.find(({ area }) => area < 100)!;
    expect(map.regions[core.inside]).toBe(ring);
    expect(map.regions[ring.inside].area).toBeGreaterThan(800);
  });

  it('finds the crossing of two curves on the curves, not on their chords', () => {
    const map = mapSvg('<circle cx="40" cy="50" r="20"/><circle cx="60" cy="50" r="20"/>', {
      tolerance: 0.05,
    });
    const lens = 2 * 400 * Math.acos(0.5) - 0.5 * 20 * Math.sqrt(4 * 400 - 400);
    expect(map.regions).toHaveLength(3);
    // Two nodes, each within half a grid step: far below what chords of 0.05 mm would do.
    expect(Math.abs(Math.min(...areasOf(map)) - lens)).toBeLessThan(1e-6);
    for (const { truePoint } of map.nodes) {
      expect(Math.hypot(truePoint[0] - 40, truePoint[1] - 50)).toBeCloseTo(20, 9);
      expect(Math.hypot(truePoint[0] - 60, truePoint[1] - 50)).toBeCloseTo(20, 9);
    }
  });

  it('keeps curves: an edge remembers its curve and parameters', () => {
    const map = mapSvg('<path d="M10 50C30 0 70 0 90 50Z"/><path d="M50 0V60"/>');
    const cubics = map.edges.flatMap(({ pieces }) =>
      pieces.filter((p) => map.curves[p.curve].kind === 'cubic'),
    );
    expect(cubics).toHaveLength(2);
    const range = cubics.map(({ t0, t1 }) => Math.abs(t1 - t0)).reduce((a, b) => a + b);
    expect(range).toBeCloseTo(1, 9);
  });

  it('calls a line that ends inside a region a vein, and one between island and outline a connector', () => {
    const map = mapSvg(`${SQUARE}<path d="M10 20H30"/><circle cx="30" cy="40" r="5"/><path d="M35 40H50"/>`);
    expect(map.edges.filter(({ kind }) => kind === 'vein')).toHaveLength(1);
    expect(map.edges.filter(({ kind }) => kind === 'connector')).toHaveLength(1);
    const around = map.regions.find(({ area }) => area > 1000)!;
    expect(around.loops).toHaveLength(2);
    expect(around.veins).toHaveLength(2);
  });

  it('lists neighbours by shared length; touching in a point is no border', () => {
    const map = mapSvg('<path d="M10 10H30V30H10ZM30 10H50V30H30ZM30 30H50V50H30Z"/>');
    expect(map.regions.map(({ neighbours }) => neighbours.map(({ length }) => length))).toEqual([
      [20],
      [20, 20],
      [20],
    ]);
  });

  it('numbers regions by place, whatever the order of the drawing', () => {
    const parts = [
      '<path d="M10 10H40V40H10Z"/>',
      '<path d="M50 10H90V40H50Z"/>',
      '<circle cx="50" cy="70" r="9"/>',
    ];
    const [a, b] = [parts, [...parts].reverse()].map((list) => mapSvg(list.join('')));
    expect(b.regions.map(({ id, labelPoint }) => [id, labelPoint])).toEqual(
      a.regions.map(({ id, labelPoint }) => [id, labelPoint]),
    );
  });

  it('survives JSON and structured clone', () => {
    const map = mapSvg(`${SQUARE}<text x="20" y="20">3</text><path d="M10 20H30"/>`);
    expect(JSON.parse(JSON.stringify(map))).toEqual(map);
    expect(structuredClone(map)).toEqual(map);
  });

  it('maps a drawing without lines to nothing', () => {
    expect(mapSvg('').regions).toEqual([]);
  });
});
