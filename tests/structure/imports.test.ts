import { posix } from 'node:path';
import { expect, it } from 'vitest';
import { filesBelow, importsOf, runtimeImportsOf, textOf } from './source-files.js';

/** Each folder may import from those before it. */
const ORDER = ['geometry', 'drawing', 'plane', 'relief', 'workshop', 'checks', 'output'];
const COMMON = [
  'src/finding.ts',
  'src/error.ts',
  'src/version.ts',
  'src/nearest-name.ts',
  'src/arguments.ts',
];

/** Files that common files import from, and no further. */
const LEAF = 'src/geometry/point.ts';

const sources = filesBelow('src', /\.ts$/);

const targetOf = (path: string, specifier: string): string =>
  posix.join(posix.dirname(path), specifier).replace(/\.js$/, '.ts');

function mayImport(path: string, target: string): boolean {
  if (COMMON.includes(target) || target.startsWith('shared/')) return true;
  if (COMMON.includes(path)) return target === LEAF;
  const [from, to] = [path, target].map((each) => each.split('/')[1]);
  if (path === 'src/index.ts') return ORDER.includes(to);
  if (from === 'cli') return to === 'cli' || target === 'src/index.ts';
  return ORDER.includes(to) && ORDER.indexOf(to) <= ORDER.indexOf(from);
}

it('finds the sources', () => {
  expect(sources.length).toBeGreaterThan(50);
  expect(importsOf('src/index.ts').length).toBeGreaterThan(10);
});

it('lets a folder import only from folders before it, and the command only the public API', () => {
  const wrong = sources.flatMap((path) =>
    importsOf(path)
      .filter((specifier) => specifier.startsWith('.'))
      .map((specifier) => targetOf(path, specifier))
      .filter((target) => !mayImport(path, target))
      .map((target) => `${path} imports ${target}`),
  );
  expect(wrong).toEqual([]);
});

it('lets only the command touch what Node alone has', () => {
  const wrong = sources
    .filter((path) => !path.startsWith('src/cli/'))
    .filter((path) => /['"]node:|\bprocess\.|\bBuffer\b|\brequire\(/.test(withoutComments(path)));
  expect(wrong).toEqual([]);
});

it('imports packages only where they are runtime dependencies', () => {
  const { dependencies } = JSON.parse(textOf('package.json')) as { dependencies: Record<string, string> };
  const wrong = sources.flatMap((path) =>
    importsOf(path)
      .filter((specifier) => !specifier.startsWith('.') && !specifier.startsWith('node:'))
      .filter((specifier) => !(specifier in dependencies))
      .map((specifier) => `${path} imports ${specifier}`),
  );
  expect(wrong).toEqual([]);
});

it('has no circle of imports', () => {
  const graph = new Map(
    sources.map((path) => [
      path,
      runtimeImportsOf(path)
        .filter((specifier) => specifier.startsWith('.'))
        .map((specifier) => targetOf(path, specifier)),
    ]),
  );
  const circles: string[] = [];
  const done = new Set<string>();
  const visit = (path: string, trail: readonly string[]): void => {
    if (trail.includes(path)) circles.push([...trail.slice(trail.indexOf(path)), path].join(' > '));
    if (done.has(path) || trail.includes(path)) return;
    for (const next of graph.get(path) ?? []) visit(next, [...trail, path]);
    done.add(path);
  };
  for (const path of sources) visit(path, []);
  expect(circles).toEqual([]);
});

function withoutComments(path: string): string {
  return textOf(path)
    .replace(/\/\*[\s\S]*?\*\//g, '')
    .replace(/^\s*\/\/.*$/gm, '');
}
