import { expect, it } from 'vitest';
import { depthTint, inkOn, relativeLuminance } from '../../src/output/palette.js';

const contrast = (a: string, b: string): number => {
  const [low, high] = [relativeLuminance(a), relativeLuminance(b)].sort((x, y) => x - y);
  return (high + 0.05) / (low + 0.05);
};

it('gets lighter with every sheet, so the order holds in grey print', () => {
  for (const sheets of [2, 3, 4, 6, 8]) {
    const tints = Array.from({ length: sheets }, (_, i) => relativeLuminance(depthTint(i + 1, sheets)));
    for (let i = 1; i < sheets; i++) expect(tints[i]).toBeGreaterThan(tints[i - 1] * 1.05);
  }
});

it('keeps text readable on every tint (WCAG 2 asks 4.5 for text)', () => {
  for (let sheets = 1; sheets <= 8; sheets++) {
    for (let depth = 1; depth <= sheets; depth++) {
      const tint = depthTint(depth, sheets);
      expect(contrast(tint, inkOn(tint)), `${depth} of ${sheets}: ${tint}`).toBeGreaterThan(4.5);
    }
  }
});

it('measures luminance as WCAG 2 does', () => {
  expect(relativeLuminance('#ffffff')).toBeCloseTo(1, 10);
  expect(relativeLuminance('#000000')).toBe(0);
  // The grey that WCAG's own technique G18 gives as just passing 4.5 on white.
  expect(contrast('#767676', '#ffffff')).toBeGreaterThan(4.5);
});
