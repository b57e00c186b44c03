import { join } from 'node:path';
import type { CutPlan, Finding } from '../index.js';
import type { CommandIo } from './command.js';
import { counted } from './counted.js';
import { countFindings } from './describe-findings.js';
import type { MappedDrawing } from './pipeline.js';
import { shownName } from './read-text.js';
import { shownPath } from './write-files.js';

/** What a job came to and where it is, in a few lines. */
export function jobSummary(
  mapped: MappedDrawing,
  plan: CutPlan,
  findings: readonly Finding[],
  folder: string,
  io: CommandIo,
): string {
  const { relief, totals } = plan;
  const { sheets } = relief.stack;
  const height = sheets.reduce((sum, sheet) => sum + sheet.thickness, 0);
  const cutouts = relief.regions.filter(
    (region) => region.role === 'recess' || region.role === 'opening',
  ).length;
  const passes = plan.passes.filter((pass) => pass.phase === 'pass').length;
  const place = (name: string): string => shownPath(join(folder, name), io);
  return [
    `${shownName(mapped.file)}: ${counted(mapped.map.regions.length, 'region')}`,
    `  Pieces     ${relief.bodies.length}, with ${counted(cutouts, 'cutout')} and ${counted(relief.addOns.length, 'add-on')}`,
    `  Stack      ${counted(sheets.length, 'sheet')}, ${height.toFixed(1)} mm`,
    `  At the saw ${counted(passes, 'pass', 'passes')}, ${(totals.cutLength / 1000).toFixed(1)} m of line, ${counted(totals.drillStarts, 'hole')} to drill`,
    `  Bridges    ${plan.bridges.length} narrower than the stack allows`,
    `  Findings   ${countFindings(findings)}`,
    '',
    ...pointers(findings).map(([name, what]) => `  ${place(name).padEnd(longest(place) + 2)}${what}`),
    '',
    'Before sawing, read the cautions in the plan and the manuals of your tools.',
    '',
  ].join('\n');
}

const POINTERS = [
  ['overview.svg', 'the picture: ids, numbers, holes, bridges'],
  ['plan.html', 'the plan to follow at the saw (also plan.txt, plan.md, plan.json)'],
  ['sheets/index.html', 'one SVG for each sheet'],
  ['findings.txt', 'what to look at before sawing'],
  ['regions.json', 'the regions, for a program'],
] as const;

function pointers(findings: readonly Finding[]): readonly (readonly [string, string])[] {
  return POINTERS.filter(([name]) => name !== 'findings.txt' || findings.length > 0);
}

const longest = (place: (name: string) => string): number =>
  Math.max(...POINTERS.map(([name]) => place(name).length));
