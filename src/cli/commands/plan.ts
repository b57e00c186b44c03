import { type Command, type CommandArguments, UsageError } from '../command.js';
import { FORCE, MAP_OPTIONS, OUT_FILE, RELIEF_OPTIONS } from '../common-options.js';
import { formatOf } from '../output-format.js';
import { jobName, mapFile, planOf, reliefOf } from '../pipeline.js';
import { PLAN_FORMATS, planDocument } from '../plan-documents.js';
import { putOut } from '../put-out.js';
import { reportFindings } from '../report-findings.js';

export const planCommand: Command = {
  name: 'plan',
  summary: 'the order of work at the saw: passes, cuts, holes to drill',
  operands: 'FILE',
  manyFiles: false,
  about:
    'Works out what to do at the saw, in order: which sheets are together, what to cut now, where each cut starts, what to lift off. As text, Markdown, a printable page (HTML), or JSON.',
  options: [
    {
      name: 'format',
      value: 'FORMAT',
      help: 'text, json, markdown or html (text, or by the ending of --out)',
    },
    { name: 'copies', value: 'N', help: 'advise how many of N copies to saw in one stack (1)' },
    OUT_FILE,
    FORCE,
    ...RELIEF_OPTIONS,
    ...MAP_OPTIONS,
  ],
  examples: [
    ['plystep plan pattern.svg', 'the plan as text'],
    ['plystep plan pattern.svg --out plan.html', 'a page to print'],
  ],
  run: async (args, io) => {
    const format = formatOf(args, PLAN_FORMATS);
    const [file] = args.files;
    const mapped = await mapFile(file, args, io);
    const { plan, findings } = planOf(mapped, reliefOf(mapped, args), io);
    io.progress?.say('plystep is writing the plan');
    await putOut(args, io, planDocument(plan, findings, format, jobName(file), copiesOf(args)));
    return reportFindings(file, findings, io);
  },
};

/** The number of copies asked for. */
function copiesOf(args: CommandArguments): number {
  const text = args.value('copies') ?? '1';
  const copies = Number(text);
  if (Number.isInteger(copies) && copies >= 1) return copies;
  throw new UsageError(`--copies is "${text}"; write a whole number of 1 or more.`);
}
