import type { Command } from '../command.js';
import { FORCE, MAP_OPTIONS, RELIEF_OPTIONS } from '../common-options.js';
import { inputFiles } from '../input-files.js';
import { jobName, mapFile, planOf, reliefOf } from '../pipeline.js';
import { reportFindings } from '../report-findings.js';
import { removeOutdatedSheets, sheetFiles } from '../sheet-files.js';
import { shownPath, writeFiles } from '../write-files.js';

export const sheetsCommand: Command = {
  name: 'sheets',
  summary: 'write one SVG for each sheet, at true size',
  operands: 'FILE',
  manyFiles: false,
  about:
    'Writes what is to be cut from each sheet of the stack: one SVG a sheet, in mm at true size, curves kept, each line once, with piece ids and registration crosses. In the joint "pieces" each sheet carries the pieces that it is part of; in the joint "continuous" each level is one sheet with holes. An index (index.html, index.json) lists them.',
  options: [
    { name: 'out', short: 'o', value: 'DIR', help: 'the folder to write to (NAME-sheets)' },
    FORCE,
    ...RELIEF_OPTIONS,
    ...MAP_OPTIONS,
  ],
  examples: [
    ['plystep sheets pattern.svg --out cut', 'sheet-1.svg, sheet-2.svg and so on in the folder cut'],
    ['plystep sheets pattern.svg --joint continuous', 'one sheet with holes for each level'],
  ],
  run: async (args, io) => {
    const [file] = args.files;
    const mapped = await mapFile(file, args, io);
    const { plan, findings } = planOf(mapped, reliefOf(mapped, args), io);
    const folder = args.value('out') ?? `${jobName(file)}-sheets`;
    io.progress?.say('plystep is drawing the sheets');
    const files = sheetFiles(plan, jobName(file), folder);
    await writeFiles(files, io, { force: args.flag('force'), keep: inputFiles(args) });
    await removeOutdatedSheets(folder, files, io);
    const code = reportFindings(file, findings, io);
    const count = files.length - 3;
    io.stdout(
      `Wrote ${count} sheet${count === 1 ? '' : 's'} to ${shownPath(folder, io)}; open index.html there to see them.\n`,
    );
    return code;
  },
};
