import { describe, expect, it } from 'vitest';
import { mapRegions } from '../../src/plane/map-regions.js';
import { verifyRegionMap } from '../../src/plane/verify-region-map.js';
import { circle, cubic, drawingOf, line } from '../support/curve-drawing.js';

describe('curves whose chords cross otherwise than they do', () => {
  // A flat loop: for 0.2 mm it runs on either side of the line that closes it, less than half a hundredth away.
  const loop = [cubic([15, 5], [18, 5.034], [5.0199, 5], [20, 5]), line([20, 5], [15, 5])];

  it('are told with the place and how far the node lies off', () => {
    const map = mapRegions(drawingOf([loop]));
    expect(verifyRegionMap(map)).toEqual([]);
    const told = map.findings.filter(({ rule }) => rule === 'chords-kept');
    expect(told.length).toBeGreaterThan(0);
    for (const { at, message, fix } of told) {
      expect(Math.hypot(at![0] - 15.16, at![1] - 5)).toBeLessThan(0.1);
      expect(message).toMatch(/0\.00\d+ mm off/);
      expect(fix).toMatch(/smaller tolerance/);
    }
  });

  it('lie off by no more than the grid where finer chords follow them', () => {
    const map = mapRegions(drawingOf([loop]), { tolerance: 0.0002 });
    for (const { rule, message } of map.findings)
      if (rule === 'chords-kept') expect(Number(/lies ([\d.]+) mm/.exec(message)?.[1])).toBeLessThan(0.001);
  });

  it('are not curves that cross plainly', () => {
    const map = mapRegions(drawingOf([circle([0, 0], 10), circle([8, 0], 10), [line([-20, 3], [20, -3])]]));
    expect(map.findings).toEqual([]);
  });
});
