import { existsSync, readdirSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { RULES } from '../../src/checks/rules.js';
import { STAGE_RULES } from '../../src/checks/stage-rules.js';
import { textAt } from '../support/check-pair.js';
import { checksIndex, checksSchema } from '../support/rule-documents.js';

const ROOT = new URL('../../', import.meta.url);
const ids = RULES.map((rule) => rule.id as string);
const namesIn = (folder: string, ending: string): string[] =>
  readdirSync(new URL(folder, ROOT))
    .filter((name) => name.endsWith(ending))
    .map((name) => name.slice(0, name.length - ending.length));

describe('the findings of earlier steps', () => {
  const folders = ['drawing', 'plane', 'relief', 'workshop', 'cli'];
  const sources = folders.flatMap((folder) =>
    readdirSync(new URL(`src/${folder}`, ROOT), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.ts'))
      .map((name) => textAt(`src/${folder}/${name}`)),
  );
  const stageIds = STAGE_RULES.map((rule) => rule.id);

  it('are all listed', () => {
    const made = sources.flatMap((text) =>
      [...text.matchAll(/\brule: '([a-z-]+)'/g)].map((match) => match[1]),
    );
    const fillRules = ['nonzero', 'evenodd'];
    const unlisted = made.filter((id) => !fillRules.includes(id) && !stageIds.includes(id));
    expect([...new Set(unlisted)]).toEqual([]);
  });

  it('are all made somewhere, and share no id with a rule', () => {
    const all = sources.join('');
    expect(stageIds.filter((id) => !all.includes(`'${id}'`))).toEqual([]);
    expect(stageIds.filter((id) => ids.includes(id))).toEqual([]);
  });
});

describe('the rules', () => {
  it('have ids of their own, in kebab-case', () => {
    expect(new Set(ids).size).toBe(ids.length);
    for (const id of ids) expect(id).toMatch(/^[a-z]+(-[a-z]+)*$/);
  });

  it.each(ids)('%s has its source, its test, its page and its pair', (id) => {
    const files = [
      `src/checks/${id}.ts`,
      `tests/checks/${id}.test.ts`,
      `docs/checks/${id}.md`,
      ...['bad.svg', 'good.svg', 'setup.json'].map((name) => `fixtures/checks/${id}/${name}`),
    ];
    expect(files.filter((path) => !existsSync(new URL(path, ROOT)))).toEqual([]);
    expect(textAt(`src/checks/${id}.ts`)).toContain(`id: '${id}'`);
    expect(textAt(`tests/checks/${id}.test.ts`)).toContain(`describePair('${id}')`);
  });

  it('are all that pages and pairs there are for', () => {
    expect(namesIn('docs/checks', '.md').sort()).toEqual([...ids].sort());
    expect(readdirSync(new URL('fixtures/checks', ROOT)).sort()).toEqual([...ids].sort());
  });

  it('are all listed: every file that defines a rule is in the registry', () => {
    const defining = namesIn('src/checks', '.ts').filter((name) =>
      /^\s+id: '/m.test(textAt(`src/checks/${name}.ts`)),
    );
    expect(defining.sort()).toEqual([...ids].sort());
  });

  it('are listed in the index, docs/checks.md', async () => {
    await expect(checksIndex()).toMatchFileSnapshot('../../docs/checks.md');
  });

  it('are described by the schema, shared/schema/checks.json', async () => {
    await expect(`${JSON.stringify(checksSchema(), null, 2)}\n`).toMatchFileSnapshot(
      '../../shared/schema/checks.json',
    );
  });
});
