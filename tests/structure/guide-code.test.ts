import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSync } from 'esbuild';
import { afterAll, expect, it } from 'vitest';
import { Bench } from '../cli/run-here.js';
import { filesBelow, ROOT, textOf } from './source-files.js';

const guides = ['README.md', ...filesBelow('docs', /\.md$/)].filter((path) => !path.startsWith('docs/api/'));
const bench = new Bench();
for (const name of ['harbour.svg', 'harbour.plystep.json']) bench.copy(`fixtures/harbour/${name}`);
afterAll(() => bench.clear());

function blocks(language: string): [guide: string, block: string][] {
  const fence = new RegExp(`^\`\`\`${language}\\n([\\s\\S]*?)^\`\`\``, 'gm');
  return guides.flatMap((guide) =>
    [...textOf(guide).matchAll(fence)].map((match) => [guide, match[1]] as [string, string]),
  );
}

it('finds code to run', () => {
  expect(blocks('ts').length).toBeGreaterThanOrEqual(2);
  expect(blocks('sh').length).toBeGreaterThanOrEqual(6);
});

it.each(blocks('ts'))('runs the TypeScript of %s', (_, code) => {
  const source = bench.path('block.ts');
  writeFileSync(source, code);
  const built = bench.path('block.mjs');
  buildSync({
    entryPoints: [source],
    outfile: built,
    bundle: true,
    platform: 'node',
    format: 'esm',
    alias: { plystep: join(ROOT, 'src/index.ts') },
    nodePaths: [join(ROOT, 'node_modules')],
    logLevel: 'silent',
  });
  const said = execFileSync(process.execPath, [built], { cwd: bench.folder, encoding: 'utf8' });
  expect(said).not.toMatch(/^error /m);
});

it.each(blocks('sh'))('runs the command lines of %s', async (_, block) => {
  for (const line of block.trim().split('\n')) {
    const [, piped, command] = /^(?:cat (\S+) \| )?plystep (.+)$/.exec(line.replace(/\s+#.*$/, ''))!;
    const stdin = piped === undefined ? '' : readFileSync(bench.path(piped), 'utf8');
    const result = await bench.run(splitWords(command), stdin);
    expect(result.code, `${line}\n${result.err}`).toBe(0);
  }
});

it('leaves what the guides promise', () => {
  for (const name of [
    'overview.svg',
    'regions.json',
    'plan.html',
    'cut/level-1.svg',
    'pond-job/plan.html',
    'pond-job/overview.svg',
  ]) {
    expect(existsSync(bench.path(name)), name).toBe(true);
  }
});

/** Words of a command line; double quotes keep blanks. */
function splitWords(line: string): string[] {
  return [...line.matchAll(/"([^"]*)"|(\S+)/g)].map((match) => match[1] ?? match[2]);
}
