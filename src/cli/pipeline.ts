import { access } from 'node:fs/promises';
import { basename, dirname, join, resolve } from 'node:path';
import {
  buildRelief,
  type CheckOptions,
  type CutPlan,
  checkRelief,
  type Drawing,
  type Finding,
  mapRegionsAsync,
  mergeCheckOptions,
  PlystepError,
  parseSidecar,
  parseStack,
  planCuts,
  type RegionMap,
  type Relief,
  readCheckOptions,
  readDrawing,
  readStack,
  type Sidecar,
  type Stack,
  staleSidecar,
} from '../index.js';
import { type CommandArguments, type CommandIo, UsageError } from './command.js';
import { choiceOf, mapOptionsOf } from './common-options.js';
import { counted } from './counted.js';
import { InputError } from './describe-error.js';
import { parseJson } from './parse-json.js';
import { type Config, readConfig } from './read-config.js';
import { readText, STDIN, shownName } from './read-text.js';

/** A drawing that was read and mapped, with all that came with it. */
export interface MappedDrawing {
  /** As given on the command line. */
  readonly file: string;
  readonly drawing: Drawing;
  readonly map: RegionMap;
  readonly config: Config;
  /** The settings of the checks: the config's with the sidecar's. */
  readonly checks: CheckOptions;
  readonly sidecar: Sidecar | null;
  /** The sidecar's file as it was read. */
  readonly sidecarText: string | null;
  /** What is known of the stack: from the command line, the sidecar or the config; null: nothing. */
  readonly stack: Stack | null;
  /** Findings so far: of the reading, the sidecar, the map. */
  readonly findings: readonly Finding[];
}

/** Reads and maps one drawing with the options of the command line. */
export async function mapFile(file: string, args: CommandArguments, io: CommandIo): Promise<MappedDrawing> {
  const config = await readConfig(args.value('config'), io);
  const text = await readText(file, io);
  const found = await findSidecar(file, args, io);
  const sidecar = found?.sidecar ?? null;
  const options = { ...config.map, ...mapOptionsOf(args) };
  const { drawing, map } = await withText(file, text, async () => {
    const drawing = readDrawing(text, config.read);
    const doing = `plystep is finding the regions of ${shownName(file)}`;
    const onProgress = (share: number): void => io.progress?.say(doing, share);
    return { drawing, map: await mapRegionsAsync(drawing, { ...options, onProgress }) };
  });
  const stale = sidecar === null ? null : staleSidecar(sidecar, map.digest);
  const findings = uniqueFindings([...drawing.findings, ...(stale === null ? [] : [stale]), ...map.findings]);
  const stack = (await stackOption(args, io)) ?? sidecar?.stack ?? config.stack;
  const checks =
    sidecar?.checks === undefined
      ? config.checks
      : mergeCheckOptions(config.checks, readCheckOptions(sidecar.checks));
  return { file, drawing, map, config, sidecar, sidecarText: found?.text ?? null, stack, checks, findings };
}

/** Where a drawing's sidecar is looked for: `pond.svg` has `pond.plystep.json` beside it. */
export function sidecarName(file: string): string {
  return join(dirname(file), `${basename(file).replace(/\.svgz?$/i, '')}.plystep.json`);
}

/** A name for what is made from a drawing: its file name without folder and ending. */
export function jobName(file: string): string {
  return file === STDIN ? 'drawing' : basename(file).replace(/\.svgz?$/i, '');
}

/**
 * The relief of a mapped drawing. What the command line says counts most, then the sidecar, then the config.
 * @throws UsageError where the stack is not known.
 */
export function reliefOf(mapped: MappedDrawing, args: CommandArguments): Relief {
  if (mapped.stack === null) throw new UsageError(noStack(mapped.file));
  return buildWith(mapped, args, mapped.stack);
}

/**
 * The relief of a mapped drawing even where the stack is not known: then enough sheets of 3 mm are assumed to
 * say what the numbers mean, and a finding says so.
 */
export function reliefWithAnyStack(
  mapped: MappedDrawing,
  args: CommandArguments,
): { relief: Relief; findings: readonly Finding[] } {
  const relief = buildWith(mapped, args, mapped.stack ?? assumedStack(mapped));
  if (mapped.stack !== null) return { relief, findings: mapped.findings };
  const count = relief.stack.sheets.length;
  const assumed: Finding = {
    rule: 'stack-assumed',
    level: 'note',
    message: `The sheets are not known; ${count === 1 ? 'one sheet' : `${count} sheets`} of ${ASSUMED_THICKNESS} mm taken for now.`,
    at: null,
    regions: [],
    fix: 'Name them with --stack, or write them into the sidecar.',
  };
  return { relief, findings: [...mapped.findings, assumed] };
}

function buildWith({ map, sidecar, config }: MappedDrawing, args: CommandArguments, stack: Stack): Relief {
  const joint = choiceOf(args, 'joint', ['pieces', 'continuous'] as const);
  const frame = choiceOf(args, 'frame', ['cut', 'board-edge'] as const);
  return buildRelief(map, {
    stack,
    joint: joint ?? sidecar?.joint ?? config.joint ?? 'pieces',
    frame: frame ?? sidecar?.frame ?? config.frame ?? 'cut',
    ...(sidecar === null ? {} : { sidecar: sidecar.numbers }),
    ...(config.legend === null ? {} : { legend: config.legend }),
  });
}

/** The plan and all findings of a relief, strongest stage last. */
export function planOf(
  mapped: MappedDrawing,
  relief: Relief,
  io: CommandIo,
  earlier: readonly Finding[] = mapped.findings,
): { plan: CutPlan; findings: readonly Finding[] } {
  const some = counted(mapped.map.regions.length, 'region');
  io.progress?.say(`plystep is planning the cuts of ${some}`);
  const plan = planCuts(relief, mapped.config.workshop);
  // What the command itself found goes through the settings of the checks like all other findings.
  const own = earlier.filter((finding) => !mapped.map.findings.includes(finding));
  io.progress?.say(`plystep is checking the plan of ${some}`);
  const found = { ...relief, findings: [...own, ...relief.findings] };
  return { plan, findings: uniqueFindings(checkRelief(found, plan, mapped.checks)) };
}

/** The stack of the command line, or null. */
async function stackOption(args: CommandArguments, io: CommandIo): Promise<Stack | null> {
  const text = args.value('stack');
  if (text === undefined) return null;
  if (!/\.json$/i.test(text)) return withText('--stack', text, () => parseStack(text));
  const json = await readText(text, io);
  return withText(text, json, () =>
    readStack(parseJson(json, 'stack file', 'bad-stack'), 'the top of the file'),
  );
}

/** Runs a step on a text so that its errors name the file and can show the line. */
async function withText<T>(file: string, text: string, step: () => T | Promise<T>): Promise<T> {
  try {
    return await step();
  } catch (error) {
    if (error instanceof PlystepError) throw new InputError(shownName(file), text, error);
    throw error;
  }
}

async function findSidecar(
  file: string,
  args: CommandArguments,
  io: CommandIo,
): Promise<{ sidecar: Sidecar; text: string } | null> {
  const given = args.value('sidecar');
  if (given === STDIN && file === STDIN)
    throw new UsageError('the drawing and its sidecar cannot both be standard input.');
  if (given === undefined && file === STDIN) return null;
  const name = given ?? sidecarName(file);
  if (given === undefined && !(await isThere(resolve(io.cwd, name)))) return null;
  const text = await readText(name, io);
  return withText(name, text, () => {
    const sidecar = parseSidecar(text);
    // Mistakes in its settings are told with the file they are in.
    if (sidecar.checks !== undefined) readCheckOptions(sidecar.checks);
    return { sidecar, text };
  });
}

async function isThere(path: string): Promise<boolean> {
  return access(path).then(
    () => true,
    () => false,
  );
}

/** mm, of a sheet that nothing is known of. */
const ASSUMED_THICKNESS = 3;

/** As many sheets as the largest number on the drawing. */
function assumedStack(mapped: MappedDrawing): Stack {
  const texts = [
    ...mapped.map.labels.map((label) => label.text),
    ...mapped.map.shapes.map((shape) => shape.depth ?? ''),
    ...(mapped.sidecar?.numbers ?? []).map((number) => String(number.depth)),
  ];
  const numbers = texts.filter((text) => /^[1-9]$/.test(text)).map(Number);
  const count = Math.max(1, ...numbers);
  return readStack(Array.from({ length: count }, () => ({ thickness: ASSUMED_THICKNESS })));
}

function noStack(file: string): string {
  return [
    'the sheets are not known. Say what is in the stack, front to back:',
    `    --stack "6 mm walnut, 3x 3 mm birch"`,
    `  or write it into the sidecar ${file === STDIN ? 'given with --sidecar' : sidecarName(file)} (plystep overview FILE --sidecar makes one).`,
  ].join('\n');
}

/** Findings without exact repeats, in order. */
function uniqueFindings(findings: readonly Finding[]): Finding[] {
  const seen = new Set<string>();
  return findings.filter((finding) => {
    const key = JSON.stringify(finding);
    return !seen.has(key) && seen.add(key) !== undefined;
  });
}
