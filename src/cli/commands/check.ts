import { type CheckedFile, checkReport } from '../../index.js';
import type { Command, CommandArguments, CommandIo } from '../command.js';
import { choiceOf, FORCE, MAP_OPTIONS, OUT_FILE, RELIEF_OPTIONS } from '../common-options.js';
import { counted } from '../counted.js';
import { describeError } from '../describe-error.js';
import { countFindings, describeFindings, reaches } from '../describe-findings.js';
import { formatOf } from '../output-format.js';
import { mapFile, planOf, reliefWithAnyStack } from '../pipeline.js';
import { putOut } from '../put-out.js';
import { shownName } from '../read-text.js';

export const checkCommand: Command = {
  name: 'check',
  summary: 'say what would go wrong at the saw or the glue-up',
  operands: 'FILES...',
  manyFiles: true,
  about:
    'Reads each drawing with its numbers and reports what is wrong or doubtful: regions without a number, pieces that fall out, bridges that break, lines that bound nothing. Each finding says where and what to do. For a build server, --format json and the exit code tell the outcome.',
  options: [
    { name: 'format', value: 'text|json', help: 'lines to read, or JSON for a program (text)' },
    {
      name: 'fail-on',
      value: 'LEVEL',
      help: 'exit with 1 from this level on: error, warning or never (error)',
    },
    OUT_FILE,
    FORCE,
    ...RELIEF_OPTIONS,
    ...MAP_OPTIONS,
  ],
  examples: [
    ['plystep check pattern.svg', 'all findings, errors first'],
    ['plystep check patterns/*.svg --fail-on warning', 'strict, for a build server'],
  ],
  run: async (args, io) => {
    const format = formatOf(args, ['text', 'json']);
    const failOn = choiceOf(args, 'fail-on', ['error', 'warning', 'never'] as const) ?? 'error';
    const checked: CheckedFile[] = [];
    let unreadable = false;
    for (const file of args.files) {
      const result = await checkFile(file, args, io);
      if (result === null) unreadable = true;
      else checked.push(result);
    }
    const report = checkReport(checked);
    await putOut(
      args,
      io,
      format === 'json' ? `${JSON.stringify(report, null, 2)}\n` : describeReport(checked),
    );
    if (unreadable) return 2;
    const all = checked.flatMap((file) => file.findings);
    return failOn !== 'never' && reaches(all, failOn) ? 1 : 0;
  },
};

/** The findings of one file; null (and a message) where it could not be read, so that the others still are. */
async function checkFile(file: string, args: CommandArguments, io: CommandIo): Promise<CheckedFile | null> {
  try {
    const mapped = await mapFile(file, args, io);
    const { relief, findings: earlier } = reliefWithAnyStack(mapped, args);
    const { findings } = planOf(mapped, relief, io, earlier);
    return { file: shownName(file), findings, regions: mapped.map.regions.length };
  } catch (error) {
    io.stderr(`${describeError(error)}\n`);
    return null;
  }
}

function describeReport(files: readonly CheckedFile[]): string {
  const parts = files.map(({ file, findings, regions }) => {
    const summary = `${file}: ${counted(regions, 'region')}, ${countFindings(findings)}\n`;
    return describeFindings(file, findings) + summary;
  });
  return parts.join('\n');
}
