import { existsSync, mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { optionsOf } from '../../src/cli/parse-arguments.js';
import { COMMANDS } from '../../src/cli/run.js';
import { VERSION } from '../../src/version.js';
import { textOf } from '../structure/source-files.js';
import { Bench } from './run-here.js';

const PAGE = textOf('docs/command.md');

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

/** The rows of the table under a heading whose head starts with a word, as cells. */
function rows(heading: string, head: string): string[][] {
  const section = PAGE.split(/^## /m).find((part) => part.startsWith(`${heading}\n`)) ?? '';
  const table = section.split('\n\n').find((part) => part.startsWith(`| ${head}`)) ?? '';
  return table
    .trim()
    .split('\n')
    .slice(2)
    .map((line) => line.slice(2, -2).split(' | '));
}

/** What stands in code marks. */
const codes = (cell: string): string[] => [...cell.matchAll(/`([^`]+)`/g)].map(([, code]) => code);
const names = COMMANDS.map(({ name }) => name);
const commandsIn = (cell: string): readonly string[] => (cell === 'all' ? names : codes(cell));

describe('the page of the command', () => {
  it('has every option of every command, and no other', () => {
    const told = rows('Options', 'option').flatMap(([option, of]) =>
      commandsIn(of).flatMap((command) =>
        codes(option)
          .filter((code) => code.startsWith('--'))
          .map((code) => `${command} ${code.split(' ')[0]}${code.includes(' ') ? ' …' : ''}`),
      ),
    );
    const real = COMMANDS.flatMap((command) =>
      optionsOf(command).map(
        ({ name, value }) => `${command.name} --${name}${value === undefined ? '' : ' …'}`,
      ),
    );
    expect([...new Set(told)].sort()).toEqual(real.sort());
  });

  it('has the short forms', () => {
    const told = rows('Options', 'option').flatMap(([option, of]) =>
      codes(option)
        .filter((code) => /^-[a-z]/.test(code))
        .flatMap((code) => commandsIn(of).map((command) => `${command} ${code}`)),
    );
    const real = COMMANDS.flatMap((command) =>
      optionsOf(command).flatMap(({ short }) => (short === undefined ? [] : [`${command.name} -${short}`])),
    );
    expect([...new Set(told)].sort()).toEqual(real.sort());
  });

  it('lists the commands, in each table that goes by command', () => {
    for (const [heading, head] of [
      ['The command', 'command'],
      ['What goes where', 'command'],
    ] as const) {
      const table = heading === 'The command' ? [...PAGE.matchAll(/^\| `(\w+)` \|/gm)].slice(0, 6) : null;
      const listed =
        table === null ? rows(heading, head).map(([cell]) => codes(cell)[0]) : table.map(([, name]) => name);
      expect(listed).toEqual(names);
    }
  });
});

describe('versions and help', () => {
  it.each([['-v'], ['--version']])('%s', async (flag) => {
    expect(await bench.run([flag])).toEqual({ code: 0, out: `${VERSION}\n`, err: '' });
  });

  it('help goes to standard output where it is asked for, and to the error stream where nothing is', async () => {
    for (const line of [['-h'], ['--help'], ['help']]) {
      const { code, out, err } = await bench.run(line);
      expect([code, err]).toEqual([0, '']);
      expect(out).toContain('Usage: plystep COMMAND');
    }
    expect(await bench.run(['help', 'plan'])).toEqual(await bench.run(['plan', '--help']));
    expect(await bench.run(['plan', '-h'])).toEqual(await bench.run(['plan', '--help']));
    const bare = await bench.run([]);
    expect([bare.code, bare.out]).toEqual([2, '']);
    expect(bare.err).toContain('Usage: plystep COMMAND');
  });
});

describe('endings', () => {
  const told = rows('What is written, and what is not', 'to `--out` of').flatMap(([of, endings]) =>
    codes(of).map((command) => [command, codes(endings)] as const),
  );
  const all = [...new Set(told.flatMap(([, endings]) => endings)), '.png', '.pdf'];

  it('are told for the commands that write one document', () => {
    expect(told.map(([command]) => command).sort()).toEqual(['check', 'overview', 'plan', 'regions']);
  });

  it.each(told)('%s takes those that are told, and no other', async (command, endings) => {
    for (const ending of all) {
      const { code, err } = await bench.run([command, 'pond.svg', '--out', `x${ending}`]);
      expect(`${ending} ${code < 2}`, err).toBe(`${ending} ${endings.includes(ending)}`);
    }
  });

  it.each([
    ['pond.svg', 'pond-sheets'],
    ['pond.svgz', 'pond-sheets'],
    ['POND.SVG', 'POND-sheets'],
    ['pond.xml', 'pond.xml-sheets'],
    ['pond', 'pond-sheets'],
    ['-', 'drawing-sheets'],
  ])('of the input: %s gives %s', async (name, folder) => {
    if (name !== '-') writeFileSync(bench.path(name), bench.text('pond.svg'));
    const line = ['sheets', name, '--stack', '6 mm walnut, 3x 3 mm birch', '--sidecar', 'pond.plystep.json'];
    const { code, err } = await bench.run(line, bench.text('pond.svg'));
    expect(code, err).toBeLessThan(2);
    expect(existsSync(bench.path(`${folder}/sheet-1.svg`))).toBe(true);
  });
});

/** A drawing without an error, one with an error of its own, one whose numbers are wrong. */
function writeDrawings(): void {
  const page = (content: string): string =>
    `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">${content}</svg>`;
  const ring = '<circle cx="50" cy="50" r="30" fill="none" stroke="black"/>';
  writeFileSync(bench.path('good.svg'), page(`${ring}<text x="50" y="50">1</text>`));
  writeFileSync(bench.path('open.svg'), page('<path d="M0 50H90" stroke="black"/>'));
  writeFileSync(bench.path('high.svg'), page(`${ring}<text x="50" y="50">9</text>`));
}

const STACK = ['--stack', '3 mm birch'];

describe('what goes where, and exit codes', () => {
  beforeEach(writeDrawings);

  it.each([
    ['overview', /^<(\?xml|svg)/],
    ['regions', /^id +number/],
    ['check', /^good\.svg: 1 region, 0 errors/],
    ['plan', /\S/],
    ['sheets', /^Wrote 1 sheet to good-sheets/],
    ['job', /^good\.svg: 1 region\n {2}Pieces/],
  ])(
    '%s of a good drawing: 0, the document on standard output, the error stream empty',
    async (command, out) => {
      const result = await bench.run([command, 'good.svg', ...STACK]);
      expect([result.code, result.err]).toEqual([0, '']);
      expect(result.out).toMatch(out);
    },
  );

  it.each(['overview', 'regions', 'check', 'plan'])(
    '%s --out: standard output stays empty',
    async (command) => {
      const { code, out, err } = await bench.run([command, 'good.svg', ...STACK, '--out', 'document']);
      expect([code, out, err]).toEqual([0, '', 'Wrote document\n']);
    },
  );

  it.each(names)('%s of lines that close nothing: 1', async (command) => {
    const { code, out, err } = await bench.run([command, 'open.svg', ...STACK]);
    expect(code).toBe(1);
    expect(command === 'check' ? out : err).toContain('[no-region]');
  });

  it.each([
    ['overview', 0],
    ['regions', 0],
    ['check', 1],
    ['plan', 1],
    ['sheets', 1],
    ['job', 1],
  ])('%s of a number that the stack has not: %i', async (command, wanted) => {
    const { code, err } = await bench.run([command, 'high.svg', ...STACK]);
    expect(code, err).toBe(wanted);
  });

  it.each(names)('%s that cannot run: 2, a message, and nothing written', async (command) => {
    const before = readdirSync(bench.folder);
    const lines = [
      [command],
      [command, 'none.svg', ...STACK],
      [command, 'good.svg', '--nonsense'],
      [command, 'good.svg', '--config', 'none.json'],
      [command, 'good.svg', '--stack', 'none'],
      [command, 'good.svg', '--weld', 'none'],
    ];
    for (const line of lines) {
      const { code, err } = await bench.run(line);
      expect(code, line.join(' ')).toBe(2);
      expect(err).toMatch(/^plystep: /);
    }
    expect(readdirSync(bench.folder)).toEqual(before);
  });

  it.each(['plan', 'sheets', 'job'])('%s without a stack: 2', async (command) => {
    expect((await bench.run([command, 'good.svg'])).code).toBe(2);
  });

  it('check goes on with the other files, and gives 2', async () => {
    const { code, out, err } = await bench.run(['check', 'none.svg', 'good.svg', 'open.svg', ...STACK]);
    expect(code).toBe(2);
    expect(err).toMatch(/^plystep: none\.svg: [^\n]*\n$/);
    expect(out).toContain('good.svg: 1 region');
    expect(out).toContain('open.svg: 0 regions');
  });

  it.each([
    ['error', 'high.svg', 1],
    ['warning', 'high.svg', 1],
    ['never', 'high.svg', 0],
    ['error', 'good.svg', 0],
  ])('check --fail-on %s of %s: %i', async (level, file, wanted) => {
    expect((await bench.run(['check', file, ...STACK, '--fail-on', level])).code).toBe(wanted);
  });
});

describe('what is never overwritten', () => {
  beforeEach(writeDrawings);
  const refusal = /^plystep: .*: this is (the drawing itself, or its sidecar, stack or settings|a folder)/;

  it.each([
    ['the drawing', 'good.svg', []],
    ['its sidecar, there or not', 'good.plystep.json', []],
    ['a sidecar given by name', 'own.json', ['--sidecar', 'own.json']],
    ['the settings', 'own.json', ['--config', 'own.json']],
    ['the stack', 'stack.json', ['--stack', 'stack.json']],
    ['a folder', 'folder', []],
  ])('%s, not even with --force', async (_, out, more) => {
    mkdirSync(bench.path('folder'));
    writeFileSync(bench.path('own.json'), '{"schemaVersion":"1.0"}');
    writeFileSync(bench.path('stack.json'), '"3 mm birch"');
    const form = out.endsWith('.svg') ? 'overview' : 'regions';
    const line = [form, 'good.svg', ...more, '--out', out, '--force'];
    const result = await bench.run([...line, ...(form === 'regions' ? ['--format', 'json'] : [])]);
    expect([result.code, result.out]).toEqual([2, '']);
    expect(result.err).toMatch(refusal);
  });

  it('a drawing of a check of many', async () => {
    const line = [
      'check',
      'good.svg',
      'open.svg',
      ...STACK,
      '--format',
      'json',
      '--out',
      'open.svg',
      '--force',
    ];
    expect((await bench.run(line)).code).toBe(2);
    expect(bench.text('open.svg')).toContain('M0 50H90');
  });

  it('another file, without --force', async () => {
    writeFileSync(bench.path('mine.txt'), 'mine');
    const line = ['regions', 'good.svg', '--out', 'mine.txt'];
    expect(await bench.run(line)).toMatchObject({ code: 2, err: expect.stringContaining('--force') });
    expect(bench.text('mine.txt')).toBe('mine');
    expect((await bench.run([...line, '--force'])).code).toBe(0);
    expect((await bench.run(line)).code).toBe(0);
    expect(bench.text('mine.txt')).toContain('1 region');
  });
});
