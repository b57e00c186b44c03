import { BLADES, bladeDiagonal } from '../../shared/tables/blades.js';
import { STANDARD_BITS } from '../../shared/tables/drills.js';
import type { Finding } from '../finding.js';
import { distance } from '../geometry/point.js';
import type { RegionMap } from '../plane/region-map.js';
import { areaOf, splitByNodes } from './areas.js';
import { type DrillRules, type DrillSite, drillInWaste } from './drill-in-waste.js';
import { drillOnLine } from './drill-on-line.js';
import type { Setting } from './saw-setting.js';
import type { Target } from './targets.js';

/** A place to drill, and what is to be said about it. */
export interface FoundSite {
  readonly site: DrillSite;
  readonly findings: readonly Finding[];
}

/** So many waste places beside the target's own are tried, the nearest first. */
const OTHER_PLACES = 8;

/**
 * Where to drill for the first step of a group: in the waste of the target itself, else in other waste from
 * which the blade gets to it, else on its line. A finding says so where waste is there but too narrow, or where
 * no bit passes the blade.
 */
export function findDrillSite(
  setting: Setting,
  target: Target,
  lines: readonly number[],
  waste: readonly number[],
): FoundSite {
  const { stock, rules } = setting;
  const { map, shapes, graph } = stock;
  const own = target.kind === 'cutout' ? [areaOf(map, target.regions)] : [];
  const isOwn = new Set(target.regions);
  const others = waste
    .filter((r) => target.kind !== 'cutout' || !isOwn.has(r))
    .map((r) => ({ r, far: distance(map.regions[r].labelPoint, target.at) }))
    .sort((a, b) => a.far - b.far || a.r - b.r)
    .slice(0, OTHER_PLACES)
    .map(({ r }) => areaOf(map, [r]));
  for (const area of [...own, ...others]) {
    const site = drillInWaste(map, shapes, area, rules);
    if (site !== null) return { site, findings: [] };
  }
  const onLine = drillOnLine(map, shapes, graph, lines, isSingleRun(map, lines), rules);
  if (onLine === null) return noBit(setting, lines);
  const narrow = own.length > 0 || others.length > 0;
  return { site: onLine, findings: narrow ? [tooNarrow(setting, target, onLine)] : [] };
}

/** Whether lines form one closed run without branches, so that a cut may begin anywhere on it. */
export function isSingleRun(map: RegionMap, lines: readonly number[]): boolean {
  const ends = new Map<number, number>();
  for (const e of lines) {
    const { from, to } = map.edges[e];
    ends.set(from, (ends.get(from) ?? 0) + 1);
    ends.set(to, (ends.get(to) ?? 0) + 1);
  }
  return [...ends.values()].every((n) => n === 2) && splitByNodes(map, lines).length === 1;
}

function tooNarrow({ stock, rules }: Setting, target: Target, site: DrillSite): Finding {
  const regions = target.regions.map((r) => stock.map.regions[r].id);
  const room = Math.max(0, ...target.regions.map((r) => stock.map.regions[r].labelRoom));
  const needed = rules.hole + 2 * rules.margin;
  return {
    rule: 'drill-start',
    level: 'warning',
    message:
      `The waste of ${regions.join(', ')} is ${(2 * room).toFixed(2)} mm wide at most; a hole that passes the ` +
      `blade needs ${needed.toFixed(2)} mm with its margin, so it is drilled on the line and shows.`,
    at: site.at,
    regions,
    fix: whatWouldFit(rules, room, needed),
    measured: { value: 2 * room, needed, unit: 'mm' },
  };
}

/** What would let a hole be drilled in waste that has so much room: a bit, a blade, or a change of the drawing. */
function whatWouldFit({ bits, hole, margin, clearance }: DrillRules, room: number, needed: number): string {
  const most = 2 * (room - margin);
  const wider = `make it ${needed.toFixed(1)} mm wide somewhere, or split it to the edge`;
  if (most >= hole && !bits.some((bit) => bit.diameter >= hole && bit.diameter <= most)) {
    const bit = STANDARD_BITS.find(({ diameter }) => diameter >= hole && diameter <= most);
    if (bit !== undefined) return `Take a bit of ${bit.diameter.toFixed(2)} mm (${bit.name}); else ${wider}.`;
  }
  const blade = BLADES.findLast((b) => bladeDiagonal(b) + clearance <= most);
  return blade === undefined
    ? `No blade of the table passes a hole that fits: ${wider}.`
    : `Take a smaller blade: ${blade.name} passes a hole of ${(bladeDiagonal(blade) + clearance).toFixed(2)} mm; else ${wider}.`;
}

/** Stands for the name of a bit where none lets the blade through. */
export const NO_BIT = 'none at hand';

/** No bit lets the blade through: the hole is stated as wide as it must be, without a bit. */
function noBit({ stock, rules }: Setting, lines: readonly number[]): FoundSite {
  const largest = rules.bits[rules.bits.length - 1];
  const edge = stock.map.edges[lines[0]];
  const at = stock.map.nodes[edge.from].at;
  const bit = { name: NO_BIT, diameter: rules.hole };
  return {
    site: { at, bit, where: 'line', clearance: 0, region: -1, begin: null },
    findings: [
      {
        rule: 'drill-start',
        level: 'error',
        message:
          `No bit at hand lets the blade through: it needs a hole of ${rules.hole.toFixed(2)} mm` +
          (largest === undefined ? '.' : `, the largest bit has ${largest.diameter.toFixed(2)} mm.`),
        at,
        regions: [],
        fix: 'Add a larger bit, or take a smaller blade.',
        measured: { value: largest?.diameter ?? 0, needed: rules.hole, unit: 'mm' },
      },
    ],
  };
}
