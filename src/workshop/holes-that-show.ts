import type { Finding } from '../finding.js';
import type { Pass } from './cut-plan.js';

/** So many steps are named at most. */
const NAMED = 40;

/**
 * One note for all holes that are drilled on a line with wood that is kept on both sides: half of each shows as a notch.
 * Those that `told` speaks of by themselves, since waste is there but too narrow, are left out.
 */
export function holesThatShow(passes: readonly Pass[], told: readonly Finding[]): Finding[] {
  const known = new Set(
    told.flatMap(({ rule, at }) => (rule === 'drill-start' && at != null ? [String(at)] : [])),
  );
  const steps = passes.flatMap((pass) => pass.steps);
  const holes = steps
    .map(({ start }, i) => ({ start, number: i + 1 }))
    .filter(({ start }) => start.kind === 'drill' && start.where === 'line' && !known.has(String(start.at)));
  if (holes.length === 0) return [];
  const one = holes.length === 1;
  const named = holes.slice(0, NAMED).map(({ number }) => number);
  const more = holes.length > NAMED ? ` and ${holes.length - NAMED} more` : '';
  return [
    {
      rule: 'drill-start',
      level: 'note',
      message:
        `${one ? 'A hole is' : `${holes.length} holes are`} drilled on a line with wood that is kept on both sides, ` +
        `so half of ${one ? 'it' : 'each'} shows as a notch: step${one ? '' : 's'} ${named.join(', ')}${more}.`,
      at: holes[0].start.at,
      regions: [],
      fix: 'Take a finer blade and bit for a smaller notch, or let the line run on to one that is sawn before it.',
    },
  ];
}
