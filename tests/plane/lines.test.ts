import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { areasOf, mapSvg } from './map-svg.js';

describe('hidden lines', () => {
  const PAINTED =
    '<rect x="10" y="10" width="40" height="40"/><rect x="30" y="30" width="40" height="40" fill="#fff"/>';

  it('under an opaque fill are dropped', () => {
    const map = mapSvg(PAINTED);
    expect(areasOf(map)).toEqual([expect.closeTo(1600, 9), expect.closeTo(1200, 9)]);
    expect(map.counts.hiddenEdges).toBe(2);
    expect(map.findings.map(({ rule }) => rule)).toContain('hidden-lines-dropped');
  });

  it('are kept on request', () => {
    expect(mapSvg(PAINTED, { hiddenLines: 'keep' }).regions).toHaveLength(3);
  });

  it('show through what is not filled', () => {
    expect(mapSvg(PAINTED.replace('fill="#fff"', '')).regions).toHaveLength(3);
  });

  it('show through the hole of an even-odd fill', () => {
    const frame = '<path d="M0 0H90V90H0ZM20 20H70V70H20Z" fill="#fff" fill-rule="evenodd"/>';
    const map = mapSvg(`<path d="M10 45H80"/>${frame}`);
    expect(map.regions).toHaveLength(3);
    expect(map.edges.filter(({ kind }) => kind === 'vein')).toHaveLength(0);
  });
});

describe('gaps', () => {
  it('between two ends are closed and told', () => {
    const map = mapSvg('<path d="M10.3 10H50V50H10V10"/>');
    expect(map.regions).toHaveLength(1);
    expect(map.healed).toEqual([expect.objectContaining({ length: expect.closeTo(0.3, 2) })]);
    expect(map.healed[0].source?.element).toMatch(/^path/);
  });

  it('between an end and a line are closed by the shortest way', () => {
    const map = mapSvg('<path d="M10 10H50V50H10Z"/><path d="M30 10.2V49.7"/>');
    expect(map.regions).toHaveLength(2);
    expect(map.healed.map(({ length }) => length).sort()).toEqual([
      expect.closeTo(0.2, 2),
      expect.closeTo(0.3, 2),
    ]);
  });

  it('wider than the tolerance stay open', () => {
    expect(mapSvg('<path d="M10.6 10H50V50H10V10"/>').regions).toHaveLength(0);
    expect(mapSvg('<path d="M10.3 10H50V50H10V10"/>', { gap: 0 }).regions).toHaveLength(0);
    expect(mapSvg('<path d="M10.6 10H50V50H10V10"/>', { gap: 0.7 }).regions).toHaveLength(1);
  });

  it('are not closed across another line', () => {
    const map = mapSvg('<path d="M10 50H49.9"/><path d="M50.1 50H90"/><path d="M50 10V90"/>');
    for (const { from, to } of map.healed)
      expect(Math.sign(from[0] - 50) * Math.sign(to[0] - 50)).not.toBe(-1);
  });

  it('do not close a short line on itself', () => {
    const map = mapSvg('<path d="M10 10H50V50H10Z"/><path d="M20 20l0.1 0.2l0.1 -0.2"/>');
    expect(map.healed).toEqual([]);
    expect(map.regions).toHaveLength(1);
  });
});

describe('weld', () => {
  it('puts an end on the line that it misses by rounding', () => {
    const map = mapSvg('<path d="M10 10H50V50H10Z"/><path d="M30 10.01L30 49.99"/>', { gap: 0 });
    expect(map.regions).toHaveLength(2);
    expect(map.counts.welded).toBe(2);
    expect(map.healed).toEqual([]);
  });

  it('trims an end that overshoots', () => {
    const map = mapSvg('<path d="M10 10H50V50H10Z"/><path d="M30 9.99L30 50.01"/>', { gap: 0 });
    expect(map.edges.every(({ kind }) => kind === 'border')).toBe(true);
  });

  it('puts an end on the true curve', () => {
    const map = mapSvg('<circle cx="50" cy="50" r="30"/><path d="M50 50L71.2 71.2M50 50V20.01"/>', {
      gap: 0,
    });
    const onCircle = map.nodes.filter(({ at }) => Math.hypot(at[0] - 50, at[1] - 50) > 20);
    for (const { at } of onCircle)
      expect(Math.abs(Math.hypot(at[0] - 50, at[1] - 50) - 30)).toBeLessThan(2e-3);
    expect(map.regions).toHaveLength(2);
  });
});

describe('slivers', () => {
  it('between two lines meant as one are merged and told', () => {
    const map = mapSvg('<path d="M10 10H90V50H10Z"/><path d="M50 10V50"/><path d="M50.04 10V50"/>');
    expect(map.regions).toHaveLength(2);
    expect(map.regions[0].neighbours).toHaveLength(1);
    expect(map.counts.mergedSlivers).toBe(1);
    const [told] = map.findings.filter(({ rule }) => rule === 'sliver-merged');
    expect(told.message).toContain('0.04 mm wide');
    expect(told.regions).toHaveLength(1);
  });

  it('are kept with the tolerance at 0', () => {
    const body = '<path d="M10 10H50V50H10Z"/><path d="M10 50.03H50V70H10Z"/>';
    expect(mapSvg(body, { sliver: 0 }).regions.length).toBe(mapSvg(body).regions.length);
    expect(mapSvg('<path d="M10 10H50V10.04H10Z"/>', { sliver: 0 }).regions).toHaveLength(1);
    expect(mapSvg('<path d="M10 10H50V10.04H10Z"/>').regions).toHaveLength(0);
  });
});

describe('options out of range', () => {
  const drawing = readDrawing(
    '<svg xmlns="http://www.w3.org/2000/svg" width="9mm" height="9mm" viewBox="0 0 9 9"/>',
  );
  it.each([{ weld: -1 }, { gap: Number.NaN }, { tolerance: 0 }, { sliver: Number.POSITIVE_INFINITY }])(
    '%o is an error that names the option',
    (options) => {
      const [name] = Object.keys(options);
      expect(() => mapRegions(drawing, options)).toThrowError(new RegExp(`^${name}: `));
    },
  );
});
