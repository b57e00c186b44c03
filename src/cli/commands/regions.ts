import { type RegionsReport, regionsReport } from '../../index.js';
import type { Command } from '../command.js';
import { FORCE, MAP_OPTIONS, OUT_FILE, RELIEF_OPTIONS } from '../common-options.js';
import { counted } from '../counted.js';
import { describeFindings, reaches } from '../describe-findings.js';
import { formatOf } from '../output-format.js';
import { mapFile, reliefWithAnyStack } from '../pipeline.js';
import { putOut } from '../put-out.js';
import { shownName } from '../read-text.js';

export const regionsCommand: Command = {
  name: 'regions',
  summary: 'list the regions of a drawing: size, neighbours, numbers',
  operands: 'FILE',
  manyFiles: false,
  about:
    'Finds the closed areas that the visible lines of the drawing bound, and lists them. As JSON it also gives the outline of each as path data, its neighbours with the length of the common border, the lines that bound nothing, and the gaps that were closed.',
  options: [
    { name: 'format', value: 'text|json', help: 'a table to read, or JSON for a program (text)' },
    OUT_FILE,
    FORCE,
    ...RELIEF_OPTIONS,
    ...MAP_OPTIONS,
  ],
  examples: [
    ['plystep regions pattern.svg', 'a table of all regions'],
    ['plystep regions pattern.svg --format json --out regions.json', 'for a program'],
  ],
  run: async (args, io) => {
    const format = formatOf(args, ['text', 'json']);
    const [file] = args.files;
    const mapped = await mapFile(file, args, io);
    const { relief, findings } = reliefWithAnyStack(mapped, args);
    io.progress?.say('plystep is listing the regions');
    const full = regionsReport(relief, [...findings, ...relief.findings]);
    const report = mapped.stack === null ? withoutHeights(full) : full;
    if (format === 'text') io.stderr(describeFindings(shownName(file), report.findings));
    await putOut(args, io, format === 'json' ? `${JSON.stringify(report, null, 2)}\n` : regionTable(report));
    return reaches(mapped.findings, 'error') ? 1 : 0;
  },
};

/** Heights of an assumed stack mean nothing. */
const withoutHeights = (report: RegionsReport): RegionsReport => ({
  ...report,
  regions: report.regions.map((region) => ({ ...region, height: null })),
});

const COLUMNS = ['id', 'number', 'role', 'area mm2', 'at mm', 'neighbours'] as const;

/** Region ids listed in a row of the table at most. */
const SHOWN_NEIGHBOURS = 8;

function regionTable(report: RegionsReport): string {
  const rows = report.regions.map((region) => [
    region.id,
    region.label ?? '-',
    region.role ?? '-',
    region.area.toFixed(1),
    region.labelPoint.map((value) => value.toFixed(1)).join(', '),
    region.neighbours
      .slice(0, SHOWN_NEIGHBOURS)
      .map((neighbour) => neighbour.id)
      .join(' ') + (region.neighbours.length > SHOWN_NEIGHBOURS ? ' ...' : ''),
  ]);
  const all = [[...COLUMNS], ...rows];
  const widths = COLUMNS.map((_, column) => Math.max(...all.map((row) => row[column].length)));
  const lines = all.map((row) =>
    row
      .map((cell, column) => (column === 3 ? cell.padStart(widths[column]) : cell.padEnd(widths[column])))
      .join('  ')
      .trimEnd(),
  );
  return `${lines.join('\n')}\n\n${counted(report.regions.length, 'region')}\n`;
}
