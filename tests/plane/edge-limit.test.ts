import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { PlystepError } from '../../src/error.js';
import { estimateCrossings } from '../../src/plane/crossing-estimate.js';
import { packLines } from '../../src/plane/line-set.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import type { MapOptions } from '../../src/plane/region-map.js';
import { randomSource } from '../support/random.js';

/** As many level as upright lines over the whole page of 100 mm. */
function lattice(count: number) {
  const places = Array.from({ length: count }, (_, i) => ((i + 0.5) * 100) / count);
  const lines = places.map((at) => `M0 ${at}H100M${at} 0V100`).join('');
  return readDrawing(
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><path d="${lines}" stroke="red" fill="none"/></svg>`,
  );
}

function refusal(count: number, options: MapOptions = {}): string | null {
  try {
    mapRegions(lattice(count), options);
    return null;
  } catch (error) {
    expect(error).toBeInstanceOf(PlystepError);
    expect((error as PlystepError).code).toBe('limit');
    return (error as PlystepError).message;
  }
}

describe('edgeLimit', () => {
  it('counts the pieces between crossings', () => {
    // Each of 20 lines is cut by 10 others.
    expect(refusal(10, { edgeLimit: 220 })).toBeNull();
    expect(refusal(10, { edgeLimit: 219 })).toContain(
      'about 220 pieces of line between crossings; the limit "edgeLimit" is 219',
    );
  });

  it('counts a curve that nothing crosses once, whatever its chords', () => {
    const circles = Array.from({ length: 9 }, (_, i) => `<circle cx="${10 * i + 8}" cy="50" r="4"/>`).join(
      '',
    );
    const drawing = readDrawing(
      `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100"><g fill="none" stroke="red">${circles}</g></svg>`,
    );
    expect(mapRegions(drawing, { edgeLimit: 40 }).regions).toHaveLength(9);
  });

  it('refuses millions of crossings before anything is arranged', () => {
    const start = process.cpuUsage();
    expect(refusal(2_000)).toContain('about 8,000,000 pieces');
    const { user, system } = process.cpuUsage(start);
    // Arranging alone takes seconds; the sample takes some ten ms.
    expect((user + system) / 1000).toBeLessThan(1_000);
  });

  it.each([0, -1, Number.NaN, '9'])('is no %s', (edgeLimit) => {
    const call = () => mapRegions(lattice(3), { edgeLimit } as MapOptions);
    expect(call).toThrow(PlystepError);
    expect(call).toThrow(/edgeLimit: .* is no number above 0/);
  });
});

describe('estimateCrossings', () => {
  it('is exact where every segment is taken', () => {
    const lines = packLines([
      [
        [0, 5],
        [10, 5],
      ],
      [
        [2, 0],
        [2, 10],
        [4, 10],
        [4, 0],
      ],
      [
        [4, 5],
        [9, 9],
      ],
      [],
    ]);
    // The level line crosses both uprights; the last line starts on one of them, which is no crossing.
    expect(estimateCrossings(lines)).toBe(2);
    expect(estimateCrossings(packLines([]))).toBe(0);
  });

  it('is near where a sample stands for all', () => {
    const random = randomSource(11);
    const point = (): [number, number] => [random() * 100, random() * 100];
    const ends = Array.from({ length: 6_000 }, () => [point(), point()] as const);
    const estimate = estimateCrossings(packLines(ends));
    // Two random chords of a square cross with a probability of 0.23 (by counting 10,000 pairs below).
    let crossing = 0;
    const pairs = 10_000;
    for (let i = 0; i < pairs; i++)
      if (estimateCrossings(packLines([ends[i % 3_000], ends[3_000 + ((i * 7) % 3_000)]])) > 0) crossing++;
    const wanted = (crossing / pairs) * ((6_000 * 5_999) / 2);
    expect(estimate / wanted).toBeGreaterThan(0.8);
    expect(estimate / wanted).toBeLessThan(1.25);
  });
});

describe('no region', () => {
  const open = '<path d="M10 10H60" stroke="red"/>';
  const page = (content: string) =>
    readDrawing(
      `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${content}</svg>`,
    );
  const rules = (content: string) =>
    mapRegions(page(content))
      .findings.filter(({ level }) => level === 'error')
      .map(({ rule }) => rule);

  it('is an error of the map, and not where there is no line at all', () => {
    expect(rules(open)).toEqual(['no-region']);
    expect(rules('')).toEqual(['no-lines']);
    expect(rules(`${open}<circle cx="50" cy="50" r="20" stroke="red"/>`)).toEqual([]);
  });
});
