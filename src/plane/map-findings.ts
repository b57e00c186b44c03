import type { Finding } from '../finding.js';
import type { Layer } from './layer.js';
import type { Region } from './region-map.js';

const round = (value: number): number => Number(value.toPrecision(3));

/** What mapping decided: each merged sliver, and how many hidden lines were dropped. */
export function mapFindings(base: Layer, regions: readonly Region[]): Finding[] {
  const { slivers, hiddenEdges } = base.lines;
  const findings = slivers.map(({ at, width, area }): Finding => {
    const face = base.locator.faceAt(at);
    const region = face < 0 ? undefined : regions[base.regionOfFace[face]];
    return {
      rule: 'sliver-merged',
      level: 'note',
      message: `A strip ${round(width)} mm wide (${round(area)} mm²) between two lines was merged into its neighbour.`,
      at,
      regions: region === undefined ? [] : [region.id],
      fix: 'Nothing, if the two lines were meant as one; else draw them further apart, or map with a smaller sliver.',
    };
  });
  if (hiddenEdges > 0) {
    findings.push({
      rule: 'hidden-lines-dropped',
      level: 'note',
      message: `Lines under opaque fills were dropped (${hiddenEdges} pieces of line).`,
      at: null,
      regions: [],
      fix: 'Map with hidden lines kept if every outline is to be sawn.',
    });
  }
  return findings;
}
