import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';

const svg = (body: string): string =>
  `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="3000mm" viewBox="0 0 100 3000" fill="none" stroke="#000">${body}</svg>`;

describe('the same thing ten thousand times', () => {
  it('a circle drawn over and over is one region, with an edge that names every drawing of it', () => {
    const circles = '<circle cx="20" cy="20" r="9"/>'.repeat(20_000);
    const { regions, edges } = mapRegions(readDrawing(svg(circles)));
    expect(regions).toHaveLength(1);
    expect(edges.flatMap(({ shapes }) => shapes)).toHaveLength(20_000);
  }, 15_000);

  it('ends at one x are joined to a curve each', () => {
    const count = 10_000;
    const teeth = Array.from({ length: count }, (_, i) => `<path d="M20 ${0.3 * i + 0.15}H60"/>`);
    const { edges, nodes } = mapRegions(
      readDrawing(svg(`<path d="M20 0C20 1000 20 2000 20 3000"/>${teeth.join('')}`)),
      { gap: 0 },
    );
    // The curve's two ends and a node for each tooth; a tooth's other end is open.
    expect(nodes).toHaveLength(2 * count + 2);
    expect(edges).toHaveLength(2 * count + 1);
  }, 15_000);
});
