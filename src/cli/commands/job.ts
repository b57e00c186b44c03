import { join } from 'node:path';
import { type IndexedFile, regionsReport, writeOverview } from '../../index.js';
import type { Command } from '../command.js';
import { FORCE, MAP_OPTIONS, RELIEF_OPTIONS } from '../common-options.js';
import { describeFindings } from '../describe-findings.js';
import { inputFiles } from '../input-files.js';
import { jobSummary } from '../job-summary.js';
import { jobName, mapFile, planOf, reliefOf } from '../pipeline.js';
import { planFiles } from '../plan-documents.js';
import { shownName } from '../read-text.js';
import { reportFindings } from '../report-findings.js';
import { removeOutdatedSheets, sheetFiles } from '../sheet-files.js';
import { type OutputFile, writeFiles } from '../write-files.js';

/** What a job writes beside the sheets, as seen from their folder. */
const OTHERS: readonly IndexedFile[] = [
  { file: '../plan.html', what: 'the plan to follow at the saw, to be printed' },
  { file: '../plan.txt', what: 'the plan as plain text' },
  { file: '../plan.md', what: 'the plan as Markdown' },
  { file: '../plan.json', what: 'the plan for a program' },
  { file: '../overview.svg', what: 'the whole picture with ids, numbers, holes and narrow places' },
  { file: '../regions.json', what: 'the regions, for a program' },
  { file: '../findings.txt', what: 'what to look at before sawing' },
];

export const jobCommand: Command = {
  name: 'job',
  summary: 'everything for the saw, in one folder',
  operands: 'FILE',
  manyFiles: false,
  about:
    'Does the whole job and leaves a folder: the overview picture, the plan to follow at the saw, one SVG a sheet, the regions and the findings. What is wrong with the drawing is in findings.txt; the other files are written all the same.',
  options: [
    { name: 'out', short: 'o', value: 'DIR', help: 'the folder to write to (NAME-job)' },
    FORCE,
    ...RELIEF_OPTIONS,
    ...MAP_OPTIONS,
  ],
  examples: [
    [
      'plystep job pattern.svg --stack "6 mm walnut, 3x 3 mm birch"',
      'with the numbers that are in the drawing',
    ],
    ['plystep job pattern.svg --out work', 'stack and numbers from pattern.plystep.json'],
  ],
  run: async (args, io) => {
    const [file] = args.files;
    const mapped = await mapFile(file, args, io);
    const relief = reliefOf(mapped, args);
    const { plan, findings } = planOf(mapped, relief, io);
    const title = jobName(file);
    const folder = args.value('out') ?? `${title}-job`;
    const put = (name: string, text: string): OutputFile => ({ name: join(folder, name), text });
    io.progress?.say('plystep is drawing the sheets');
    const sheets = sheetFiles(plan, title, join(folder, 'sheets'), OTHERS);
    const listed = describeFindings(shownName(file), findings);
    io.progress?.say('plystep is drawing the overview and writing the plan');
    const files = [
      put('overview.svg', writeOverview(plan, { title })),
      ...planFiles(plan, findings, title, folder),
      ...sheets,
      put('regions.json', `${JSON.stringify(regionsReport(relief, findings), null, 2)}\n`),
      put('findings.txt', listed === '' ? 'Nothing was found.\n' : listed),
    ];
    await writeFiles(files, io, { force: args.flag('force'), keep: inputFiles(args) });
    await removeOutdatedSheets(join(folder, 'sheets'), sheets, io);
    const code = reportFindings(file, findings, io, 'error');
    io.stdout(jobSummary(mapped, plan, findings, folder, io));
    return code;
  },
};
