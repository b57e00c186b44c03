import type { Finding, SourcePlace } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { Layer } from './layer.js';
import type { Region } from './region-map.js';

const round = (value: number): number => Number(value.toPrecision(3));

/**
 * What mapping decided: each sliver, merged or kept, detail lines that are not sawn, and how many hidden lines were
 * dropped. `sources`: of the drawing shapes.
 */
export function mapFindings(
  base: Layer,
  regions: readonly Region[],
  sources: readonly SourcePlace[],
): Finding[] {
  const { slivers, keptSlivers, strays, hiddenEdges } = base.lines;
  const regionsAt = (at: Point): string[] => {
    const face = base.locator.faceAt(at);
    return face < 0 ? [] : [regions[base.regionOfFace[face]].id];
  };
  const findings = slivers.map(
    ({ at, width, area }): Finding => ({
      rule: 'sliver-merged',
      level: 'note',
      message: `A strip ${round(width)} mm wide (${round(area)} mm²) between two lines was merged into its neighbour.`,
      at,
      regions: regionsAt(at),
      fix: 'Nothing, if the two lines were meant as one; else draw them further apart, or map with a smaller sliver.',
    }),
  );
  for (const { at, width, area } of keptSlivers) {
    findings.push({
      rule: 'sliver-kept',
      level: 'warning',
      message: `A strip ${round(width)} mm wide (${round(area)} mm²) stays a region: merged into a neighbour, it would take a drawn line with it.`,
      at,
      regions: regionsAt(at),
      fix: 'Draw the lines that crowd here once, or further apart.',
    });
  }
  for (const { at, away } of strays) {
    findings.push({
      rule: 'chords-kept',
      level: 'note',
      message: `Curves that all but coincide cross here as their chords do: the node lies ${round(away)} mm off them.`,
      at,
      regions: regionsAt(at),
      fix: 'Nothing, if it is where the lines are meant to meet; else map with a smaller tolerance, or draw the curves further apart.',
    });
  }
  findings.push(...detailFindings(base, sources, regionsAt));
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

/** Dashed lines of which a part is not sawn: one finding a shape, and one for all that lie outside. */
function detailFindings(
  { lines: { unsawn } }: Layer,
  sources: readonly SourcePlace[],
  regionsAt: (at: Point) => string[],
): Finding[] {
  const closing = unsawn.filter(({ why }) => why === 'closes');
  const outside = unsawn.filter(({ why }) => why === 'outside');
  const findings = closing.map(
    ({ shape, at, length }): Finding => ({
      rule: 'dashed-line-closes',
      level: 'warning',
      message: `A dashed line closes off an area with ${round(length)} mm of its length. Sawn there, it would part the wood, but a vein bounds nothing: this part of it is not sawn.`,
      at,
      regions: regionsAt(at),
      source: sources[shape],
      fix: 'Draw it unbroken if the area is to be a piece of its own; else let it end inside the region, short of the lines around.',
    }),
  );
  if (outside.length === 0) return findings;
  const length = outside.reduce((sum, each) => sum + each.length, 0);
  return [
    ...findings,
    {
      rule: 'dashed-line-outside',
      level: 'note',
      message: `Dashed lines of ${round(length)} mm lie outside of all regions and are not sawn.`,
      at: outside[0].at,
      regions: [],
      source: sources[outside[0].shape],
      fix: 'Nothing, if they are marks beside the picture; draw them unbroken if they are to be sawn.',
    },
  ];
}
