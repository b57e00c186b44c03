import { type CutPlan, formatSidecar, type RegionMap, type Relief, writeOverview } from '../../index.js';
import { type Command, type CommandArguments, type CommandIo, UsageError } from '../command.js';
import { FORCE, MAP_OPTIONS, OUT_FILE, RELIEF_OPTIONS } from '../common-options.js';
import { counted } from '../counted.js';
import { describeFindings, reaches } from '../describe-findings.js';
import { formatOf } from '../output-format.js';
import {
  jobName,
  type MappedDrawing,
  mapFile,
  planOf,
  reliefWithAnyStack,
  sidecarName,
} from '../pipeline.js';
import { putOut } from '../put-out.js';
import { STDIN, shownName } from '../read-text.js';
import { shownPath, writeFiles } from '../write-files.js';

export const overviewCommand: Command = {
  name: 'overview',
  summary: 'one picture with the id and number of every region',
  operands: 'FILE',
  manyFiles: false,
  about:
    'Draws all regions in one SVG: ids and numbers, depth as a tint, drilled starts and narrow bridges. It works before anything is numbered: look at the picture, then give the numbers. --sidecar writes a file to fill in, one entry a region, beside the drawing.',
  options: [
    OUT_FILE,
    { name: 'sidecar', help: 'write NAME.plystep.json, to be filled in, beside the drawing' },
    FORCE,
    ...RELIEF_OPTIONS.filter((option) => option.name !== 'sidecar'),
    ...MAP_OPTIONS,
  ],
  examples: [
    ['plystep overview pattern.svg --out overview.svg', 'the picture'],
    ['plystep overview pattern.svg --sidecar --out overview.svg', 'the picture, and the file to fill in'],
    ['cat pattern.svg | plystep overview - > overview.svg', 'in a pipe'],
  ],
  run: async (args, io) => {
    const [file] = args.files;
    const wantsSidecar = args.flag('sidecar');
    formatOf(args, ['svg']);
    if (wantsSidecar && file === STDIN)
      throw new UsageError('--sidecar needs a drawing with a file name, not standard input.');
    const mapped = await mapFile(file, args, io);
    const { relief } = reliefWithAnyStack(mapped, args);
    const grave = mapped.findings.filter((finding) => finding.level !== 'note');
    io.stderr(describeFindings(shownName(file), grave));
    if (wantsSidecar) await putSidecar(mapped, relief, args, io);
    if (!wantsSidecar || args.value('out') !== undefined) await putOut(args, io, picture(mapped, relief, io));
    return reaches(mapped.findings, 'error') ? 1 : 0;
  },
};

/** As much as is known: the map while nothing is numbered, the plan once the stack is known. */
function picture(mapped: MappedDrawing, relief: Relief, io: CommandIo): string {
  const title = jobName(mapped.file);
  const draw = (of: RegionMap | Relief | CutPlan, assumedStack: boolean): string => {
    io.progress?.say(`plystep is drawing the overview of ${counted(mapped.map.regions.length, 'region')}`);
    return writeOverview(of, { title, assumedStack });
  };
  if (relief.regions.every((region) => region.label === null)) return draw(mapped.map, false);
  return mapped.stack === null ? draw(relief, true) : draw(planOf(mapped, relief, io).plan, false);
}

async function putSidecar(
  mapped: MappedDrawing,
  relief: Relief,
  args: CommandArguments,
  io: CommandIo,
): Promise<void> {
  const name = sidecarName(mapped.file);
  const depths = relief.regions.map((region) => region.label);
  const text = formatSidecar(mapped.map, mapped.file.replace(/^.*[\\/]/, ''), depths, {
    frame: relief.frame,
    joint: relief.joint,
    ...(mapped.stack === null ? {} : { stack: mapped.stack }),
    kept: keptOf(mapped.sidecarText, name),
  });
  await writeFiles([{ name, text }], io, { force: args.flag('force'), keep: args.files });
  const open = depths.filter((depth) => depth === null).length;
  io.stderr(
    `Wrote ${shownPath(name, io)}: ${counted(depths.length, 'region')}, ${open} of them without a number yet.\n`,
  );
}

/** Members of an entry that a new sidecar writes; anything else in it is a person's. */
const ENTRY = ['at', 'region', 'depth', 'id'];

/**
 * What a new sidecar keeps of the one that is there. Names, faces and notes of single regions can't be kept, since
 * their points may mean other regions now; not even --force may drop them.
 */
function keptOf(text: string | null, name: string): Readonly<Record<string, unknown>> {
  if (text === null) return {};
  const old = JSON.parse(text) as { readonly numbers?: readonly object[]; readonly [key: string]: unknown };
  const own = (old.numbers ?? []).flatMap((entry) => Object.keys(entry)).find((key) => !ENTRY.includes(key));
  if (own !== undefined) {
    throw new UsageError(
      `${name} holds a "${own}" for a region, and a new sidecar would lose it. Move the file away first, then copy such things over.`,
    );
  }
  const kept = ['$schema', 'note', 'checks'].filter((key) => old[key] !== undefined);
  return Object.fromEntries(kept.map((key) => [key, old[key]]));
}
