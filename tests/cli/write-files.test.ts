import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { writeFiles } from '../../src/cli/write-files.js';
import { Bench } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

const plain: { force: boolean; keep: string[] } = { force: false, keep: [] };
const io = () => ({ cwd: bench.folder, readStdin: async () => new Uint8Array(), stdout() {}, stderr() {} });
const write = (files: { name: string; text: string }[], options = plain) => writeFiles(files, io(), options);

it('writes into folders that are not there yet, and over its own output', async () => {
  await write([{ name: 'a/b/c.txt', text: 'one' }]);
  await write([{ name: 'a/b/c.txt', text: 'two' }]);
  expect(bench.text('a/b/c.txt')).toMatch(/^two\n/);
});

it('leaves a changed or foreign file alone, and everything else with it', async () => {
  await write([{ name: 'c.txt', text: 'one' }]);
  writeFileSync(bench.path('c.txt'), `${bench.text('c.txt')}my own line`);
  const before = readdirSync(bench.folder);
  const files = [
    { name: 'new.txt', text: 'x' },
    { name: 'c.txt', text: 'two' },
  ];
  await expect(write(files)).rejects.toMatchObject({ code: 'file', place: { file: 'c.txt' } });
  expect(readdirSync(bench.folder)).toEqual(before);
  await write(files, { force: true, keep: [] });
  expect(bench.text('c.txt')).toMatch(/^two\n/);
});

it('never overwrites the drawing, not even by force', async () => {
  const options = { force: true, keep: ['pond.svg'] };
  await expect(write([{ name: './pond.svg', text: '' }], options)).rejects.toMatchObject({ code: 'file' });
  expect(bench.text('pond.svg')).toContain('heron');
});

it('leaves nothing behind when one of many files cannot be written', async () => {
  const files = [
    { name: 'first.txt', text: 'x' },
    { name: 'pond.svg/second.txt', text: 'y' },
  ];
  await expect(write(files)).rejects.toMatchObject({ code: 'file' });
  expect(existsSync(bench.path('first.txt'))).toBe(false);
  expect(readdirSync(bench.folder).filter((name) => name.endsWith('.part'))).toEqual([]);
});

it('takes folders away again that it made for nothing', async () => {
  const files = [
    { name: 'new/deep/first.txt', text: 'x' },
    { name: 'pond.svg/second.txt', text: 'y' },
  ];
  await expect(write(files)).rejects.toMatchObject({ code: 'file' });
  expect(existsSync(bench.path('new'))).toBe(false);
});

it.each([false, true])('writes nothing where a folder has the name of a file (force: %s)', async (force) => {
  mkdirSync(bench.path('job/plan.txt'), { recursive: true });
  const files = [
    { name: 'job/first.txt', text: 'x' },
    { name: 'job/plan.txt', text: 'y' },
  ];
  await expect(write(files, { force, keep: [] })).rejects.toMatchObject({
    code: 'file',
    place: { file: 'job/plan.txt' },
    message: expect.stringMatching(/this is a folder.*Give a name in it/),
  });
  expect(readdirSync(bench.path('job'))).toEqual(['plan.txt']);
});

it('never puts a file in the place of a device', async () => {
  await expect(write([{ name: '/dev/null', text: 'x' }], { force: true, keep: [] })).rejects.toMatchObject({
    code: 'file',
    message: expect.stringContaining('standard output'),
  });
});

it('leaves nothing behind when a signal comes, and all when it comes too late', async () => {
  const files = ['job/a.txt', 'job/b.txt', 'job/c.txt'].map((name) => ({ name, text: 'x' }));
  const early = new AbortController();
  early.abort();
  const stopped = writeFiles(files, { ...io(), hold: (work) => work(early.signal) }, plain);
  await expect(stopped).rejects.toMatchObject({ code: 'aborted' });
  expect(existsSync(bench.path('job'))).toBe(false);
  const late = new AbortController();
  const hold = async <T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> => {
    const result = await work(late.signal);
    late.abort();
    return result;
  };
  await writeFiles(files, { ...io(), hold }, plain);
  expect(readdirSync(bench.path('job'))).toEqual(['a.txt', 'b.txt', 'c.txt']);
});

it('says so where it may not write', async () => {
  const folder = forbiddenFolder(bench);
  await expect(write([{ name: `${folder}/a.txt`, text: 'x' }])).rejects.toMatchObject({
    code: 'file',
    message: expect.stringMatching(/could not write it: .*Choose another place/),
  });
});

/** A folder that may not be written to; the superuser may write to all but those of the kernel. */
function forbiddenFolder(where: Bench): string {
  if (process.getuid?.() === 0) return '/sys/plystep';
  mkdirSync(where.path('locked'));
  chmodSync(where.path('locked'), 0o555);
  return where.path('locked');
}

it('reads back as written', async () => {
  await write([{ name: 'x.json', text: '{"a":[1,2]}' }]);
  expect(JSON.parse(readFileSync(bench.path('x.json'), 'utf8'))).toMatchObject({ a: [1, 2] });
});
