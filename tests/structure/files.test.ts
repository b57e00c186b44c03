import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import { VERSION } from '../../src/version.js';
import { filesBelow, ROOT, textOf } from './source-files.js';

/** The longest file allowed, lines. */
const LONGEST = 400;

const code = ['src', 'tests', 'shared'].flatMap((folder) => filesBelow(folder, /\.(ts|mjs)$/));
const guides = ['README.md', 'DEVELOPERS.md', 'CHANGELOG.md', ...filesBelow('docs', /\.md$/)].filter(
  (path) => !path.startsWith('docs/api/'),
);

it('keeps every file short', () => {
  const long = code
    .map((path) => ({ path, lines: textOf(path).split('\n').length - 1 }))
    .filter(({ lines }) => lines > LONGEST);
  expect(long).toEqual([]);
});

it('names files in kebab-case', () => {
  const odd = code.filter((path) => !/^[a-z0-9-]+(\.[a-z0-9-]+)*\.(ts|mjs)$/.test(path.split('/').at(-1)!));
  expect(odd).toEqual([]);
});

it('names no file in a guide that is not there', () => {
  const missing = guides.flatMap((guide) =>
    namedFiles(guide)
      .filter((path) => !existsSync(join(ROOT, path)))
      .map((path) => `${guide} names ${path}`),
  );
  expect(missing).toEqual([]);
});

it('finds the page behind every link of a guide', () => {
  const broken = guides.flatMap((guide) =>
    links(guide)
      .filter((target) => !existsSync(join(ROOT, guide, '..', target)))
      .map((target) => `${guide} links ${target}`),
  );
  expect(broken).toEqual([]);
});

it('reaches every guide from the index of the guides', () => {
  const reached = new Set(['docs/README.md']);
  for (const guide of reached) {
    for (const target of links(guide)) {
      const path = join(guide, '..', target);
      if (path.endsWith('.md') && path.startsWith('docs/')) reached.add(path);
    }
  }
  expect(guides.filter((path) => path.startsWith('docs/') && !reached.has(path))).toEqual([]);
});

it('has no default exports, no switched-off tests and no notes of work left', () => {
  const words = new RegExp(
    ['TO' + 'DO', 'FIX' + 'ME', 'X' + 'XX', 'HA' + 'CK'].map((word) => `\\b${word}\\b`).join('|'),
  );
  const off = new RegExp(`\\b(it|test|describe)\\.(skip|only|fails|${'to' + 'do'})\\b`);
  const wrong = [...code, ...guides].filter((path) => {
    const text = textOf(path);
    return (
      words.test(text) ||
      (path.endsWith('.test.ts') && path !== 'tests/structure/files.test.ts' && off.test(text))
    );
  });
  expect(wrong).toEqual([]);
});

it('justifies every runtime dependency, and pins all', () => {
  const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<
    string,
    Record<string, string>
  >;
  const page = textOf('docs/dependencies.md');
  for (const name of Object.keys(dependencies)) expect(page).toMatch(new RegExp(`^\\| ${name} \\|`, 'm'));
  const loose = Object.values({ ...dependencies, ...devDependencies }).filter(
    (version) => !/^\d+\.\d+\.\d+$/.test(version),
  );
  expect(loose).toEqual([]);
});

it('says the same version everywhere', () => {
  const manifest = JSON.parse(textOf('package.json')) as { version: string };
  expect(VERSION).toBe(manifest.version);
  expect(textOf('CHANGELOG.md')).toContain(`## ${manifest.version}`);
});

/** Paths of the package named in back quotes: `src/…`, `tests/…`, `docs/…`, `shared/…`, `fixtures/…`. */
function namedFiles(guide: string): string[] {
  const text = textOf(guide);
  const named = text.matchAll(/`((?:src|tests|docs|shared|fixtures|\.ci)\/[\w./-]*)`/g);
  return [...named].map((match) => match[1]);
}

function links(guide: string): string[] {
  const text = textOf(guide).replace(/```[\s\S]*?```/g, '');
  return [...text.matchAll(/\]\(([^)\s#]+)(?:#[^)]*)?\)/g)]
    .map((match) => match[1])
    .filter((target) => !/^[a-z]+:/.test(target) && !target.startsWith('api/'));
}
