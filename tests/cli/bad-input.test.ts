import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { afterEach, beforeEach, expect, it } from 'vitest';
import { Bench, type Outcome } from './run-here.js';

let bench: Bench;
beforeEach(() => {
  bench = new Bench();
});
afterEach(() => bench.clear());

const SVG = 'xmlns="http://www.w3.org/2000/svg" width="20mm" height="20mm" viewBox="0 0 20 20"';

/** Runs a job on a file with the given content, and looks that nothing was written. */
async function jobOn(content: string | Uint8Array, ...args: string[]): Promise<Outcome> {
  writeFileSync(bench.path('bad.svg'), content);
  const before = readdirSync(bench.folder).sort();
  const result = await bench.run(['job', 'bad.svg', '--stack', '2x 3 mm birch', ...args]);
  if (result.code === 2) expect(readdirSync(bench.folder).sort()).toEqual(before);
  expect(result.err).not.toMatch(/\n\s+at .*:\d+:\d+|TypeError|undefined|\[object/);
  return result;
}

it.each([
  ['no XML at all', 'hello', /bad\.svg:1:\d+: /],
  ['cut-off XML', `<svg ${SVG}>\n  <path d="M0 0`, /bad\.svg:2:\d+: /],
  ['crossed tags', `<svg ${SVG}>\n  <g></svg>`, /bad\.svg:2:\d+: /],
  ['another kind of XML', '<html><body/></html>', /bad\.svg:1:1: .*not an SVG/],
  ['an empty file', '', /bad\.svg/],
  ['a picture in pixels', Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13), /bad\.svg/],
])('says where %s is wrong and what to do', async (_, content, expected) => {
  const result = await jobOn(content);
  expect(result.code).toBe(2);
  expect(result.err).toMatch(expected);
  expect(result.err.split('\n').length).toBeGreaterThan(1);
});

it('points at the place with a caret', async () => {
  const { err } = await jobOn(`<svg ${SVG}>\n  <g></svg>`);
  const [, source, under] = err.split('\n');
  expect(source).toContain('<g></svg>');
  expect(under).toMatch(/^ +\| +\^$/);
});

it('finds that a drawing has no cut lines', async () => {
  const result = await jobOn(`<svg ${SVG}><text x="3" y="3">3</text></svg>`);
  expect(result.code).toBeGreaterThan(0);
  expect(result.err + result.out).toMatch(/no (visible |cut |)lines?|nothing to cut|[Nn]o cut lines/);
});

it.each(['check', 'regions', 'plan', 'sheets', 'job', 'overview'])(
  '%s fails where no line closes an area',
  async (command) => {
    writeFileSync(
      bench.path('v.svg'),
      `<svg ${SVG}><path fill="none" stroke="#000" d="M2 2L16 10M4 10L12 6"/></svg>`,
    );
    const result = await bench.run([command, 'v.svg', '--stack', '3 mm birch']);
    expect(result.code).toBe(1);
    expect(result.err + result.out).toContain('close off no area');
  },
);

it('draws faulty path data up to the fault, and says so with line and column', async () => {
  writeFileSync(
    bench.path('bad.svg'),
    `<svg ${SVG}>\n<path fill="none" stroke="#000" d="M2 2H18V18H2Z M5 5 L x"/>\n</svg>`,
  );
  const result = await bench.run(['regions', 'bad.svg', '--format', 'json']);
  const report = JSON.parse(result.out) as { regions: unknown[]; findings: { source?: { line: number } }[] };
  expect(report.regions).toHaveLength(1);
  expect(report.findings.some((finding) => finding.source?.line === 2)).toBe(true);
});

it('says what an unknown unit was taken for', async () => {
  writeFileSync(
    bench.path('bad.svg'),
    `<svg xmlns="http://www.w3.org/2000/svg" width="20furlong" height="20mm" viewBox="0 0 20 20"><rect x="2" y="2" width="9" height="9" fill="none" stroke="#000"/></svg>`,
  );
  const result = await bench.run(['check', 'bad.svg', '--format', 'json']);
  expect(result.out).toContain('furlong');
});

it('finds a number that is none', async () => {
  const svg = (text: string) =>
    `<svg ${SVG}><rect x="2" y="2" width="16" height="16" fill="none" stroke="#000" data-depth="${text}"/></svg>`;
  writeFileSync(bench.path('bad.svg'), svg('two'));
  const result = await bench.run(['check', 'bad.svg', '--format', 'json']);
  expect(result.code).toBe(1);
  expect(result.out).toContain('two');
});

it.each([
  ['0 mm oak', /above 0/],
  ['-3 mm oak', /--stack/],
  ['oak', /--stack/],
  ['', /--stack/],
  ['3 mm oak, , 3 mm oak', /--stack:1:11/],
])('refuses the stack "%s" and shows how to write one', async (stack, expected) => {
  const result = await bench.run(['job', 'pond.svg', `--stack=${stack}`]);
  expect(result.code).toBe(2);
  expect(result.err).toMatch(expected);
  expect(result.err).toContain('--stack "6 mm walnut, 3x 1/8 in birch"');
});

it('asks for the stack where none is known', async () => {
  const result = await bench.run(['plan', '-'], bench.text('pond.svg'));
  expect(result.code).toBe(2);
  expect(result.err).toContain('--stack "');
});

it.each([
  [['regions', 'none.svg'], /none\.svg: could not read it: there is no such file/],
  [['regions', '.'], /could not read it: this is a folder/],
  [['regions', 'pond.svg/x'], /could not read it/],
  [['regions'], /no drawing given/],
  [['regions', 'a.svg', 'b.svg'], /takes one drawing/],
  [['regions', 'pond.svg', '--wild', '3'], /Did you mean --weld\?/],
  [['regions', 'pond.svg', '--weld', 'much'], /--weld is "much"/],
  [['regions', 'pond.svg', '--weld=-1'], /--weld is "-1"/],
  [['regions', 'pond.svg', '--weld', '-1'], /--weld is "-1"; write a length in mm of 0 or more/],
  [['check', 'pond.svg', '--stack', '-3 mm'], /--stack:1:1: "-3 mm" is below 0/],
  [['check', 'pond.svg', '--sidecar', '--force'], /--sidecar needs a value: --sidecar FILE/],
  [['plan', 'pond.svg', '-o', '--force'], /-o needs a value: -o FILE/],
  [['plan', 'pond.svg', '-o', ''], /--out is empty; write --out FILE/],
  [['plan', 'pond.svg', '--out', 'x.pdf'], /nothing of that kind; .*\.txt, \.json, \.md, \.html/],
  [['regions', 'pond.svg', '--out', 'x.html'], /nothing of that kind; .*\.txt, \.json/],
  [['overview', 'pond.svg', '-o', 'x.png'], /nothing of that kind; it can end in \.svg/],
  [['overview', 'pond.svg', '--sidecar', '--force', '-o', 'x.png'], /it can end in \.svg/],
  [
    ['plan', 'pond.svg', '--format', 'json', '--out', 'x.html'],
    /a name for html, and --format asks for json/,
  ],
  [['help', 'nothing'], /no command "nothing"/],
  [['regions', 'pond.svg', '--format', 'xml'], /--format is "xml"; it can be text, json/],
  [['regions', 'pond.svg', '--hidden-lines', 'maybe'], /it can be drop, keep/],
  [['regions', 'pond.svg', '--weld'], /--weld/],
  [['check', 'pond.svg', '--fail-on', 'sometimes'], /error, warning, never/],
  [['saw', 'pond.svg'], /no command "saw"/],
  [['regions', 'pond.svg', '--sidecar', 'none.json'], /none\.json: could not read it/],
  [['regions', 'pond.svg', '--config', 'none.json'], /none\.json: could not read it/],
  [['regions', '-', '--sidecar', '-'], /cannot both be standard input/],
  [['overview', '-', '--sidecar'], /needs a drawing with a file name/],
])('refuses %j in one clear message', async (args, expected) => {
  const result = await bench.run(args);
  expect(result.code).toBe(2);
  expect(result.out).toBe('');
  expect(result.err).toMatch(expected);
});

it('says where a sidecar is wrong, by pointer or by line', async () => {
  writeFileSync(
    bench.path('pond.plystep.json'),
    '{"schemaVersion":"1.0","numbers":[{"at":[1,2],"depth":"deep"}]}',
  );
  expect((await bench.run(['regions', 'pond.svg'])).err).toMatch(
    /pond\.plystep\.json: .*\/numbers\/0\/depth/,
  );
  writeFileSync(bench.path('pond.plystep.json'), '{\n  "schemaVersion": "1.0"\n  "numbers": []\n}');
  expect((await bench.run(['regions', 'pond.svg'])).err).toMatch(/pond\.plystep\.json:3:3: /);
});

it.each([
  ['{"schemaVersion":"1.0","jiont":"pieces"}', /Did you mean "joint"\?/],
  ['{"schemaVersion":"1.0","checks":{"rules":{"slivr":"off"}}}', /sliver/],
  ['{"schemaVersion":"1.0","workshop":{"feed":-1}}', /house\.json: .*feed/],
  ['{"schemaVersion":"1.0","read":{"dashd":"cut"}}', /Did you mean "read\.dashed"\?/],
  ['{"schemaVersion":"1.0","read":{"limits":{"dept":9}}}', /Did you mean "read\.limits\.depth"\?/],
  ['{"schemaVersion":"1.0","map":{"wled":1}}', /Did you mean "map\.weld"\?/],
  ['{"schemaVersion":"1.0","map":{"weld":"0.1"}}', /house\.json: map\.weld is "0\.1"/],
  ['{"schemaVersion":"1.0","legend":{"red":"2"}}', /house\.json: .*"red"; write it as #rrggbb/],
  ['{"schemaVersion":"1.0","legend":{"#aa3311":"deep"}}', /"deep"/],
  [
    '{"schemaVersion":"1.0","stack":"3,2 mm birch"}',
    /house\.json: .*3\.2 mm birch.* \(at \/stack, character 1\)/,
  ],
  ['{"schemaVersion":"1.0","stack":[{"thickness":0}]}', /house\.json: Sheet 1 .* \(at \/stack\)/],
  [
    '{"schemaVersion":"1.0","read":{"dashed":"fould"}}',
    /house\.json: read\.dashed is "fould"; use one of cut/,
  ],
  [
    '{"schemaVersion":"1.0","read":{"unitsPerInch":"96"}}',
    /house\.json: read\.unitsPerInch is "96"; it must be/,
  ],
  [
    '{"schemaVersion":"1.0","read":{"limits":{"depth":0}}}',
    /house\.json: read\.limits\.depth is 0; it must be/,
  ],
  ['{"schemaVersion":"1.0","read":{"exclude":"sky"}}', /house\.json: read\.exclude must be a list/],
  ['{"schemaVersion":"1.0","read":{"scaleTo":{"width":-5}}}', /house\.json: read\.scaleTo\.width is -5/],
  ['{"schemaVersion":"1.0","read":{"scaleTo":{}}}', /house\.json: read\.scaleTo needs exactly one/],
  ['{"schemaVersion":"1.0","read":{"scaleTo":5}}', /house\.json: read\.scaleTo must be an object/],
  [
    '{"schemaVersion":"1.0","map":{"sliver":50}}',
    /house\.json: map\.sliver: 50 is no length in mm from 0 to 10/,
  ],
  [
    '{"schemaVersion":"1.0","map":{"tolerance":0}}',
    /house\.json: map\.tolerance: 0 is no length in mm above 0/,
  ],
  ['{"schemaVersion":"1.0","map":{"edgeLimit":0}}', /house\.json: map\.edgeLimit is 0/],
  ['{"schemaVersion":"1.0",', /no valid JSON/],
  ['{}', /"schemaVersion": "1\.0"/],
])('says what is wrong with the config %s', async (config, expected) => {
  writeFileSync(bench.path('house.json'), config);
  const result = await bench.run(['check', 'pond.svg', '--config', 'house.json']);
  expect(result.code).toBe(2);
  expect(result.err).toMatch(expected);
  expect(result.err).not.toContain('pond.svg');
});

it.each([
  ['--sliver', '50', /^plystep: --sliver: 50 is no length in mm from 0 to 10\./],
  ['--tolerance', '0', /^plystep: --tolerance: 0 is no length in mm above 0, up to 1000\./],
])('blames the option, not the drawing, for %s %s', async (option, value, expected) => {
  const result = await bench.run(['check', 'pond.svg', option, value]);
  expect(result.code).toBe(2);
  expect(result.err).toMatch(expected);
});

it('warns of a sidecar that was made for another state of the drawing', async () => {
  writeFileSync(bench.path('pond.plystep.json'), '{"schemaVersion":"1.0","drawing":{"digest":"0000"}}');
  expect((await bench.run(['check', 'pond.svg'])).out).toContain('[stale-sidecar]');
});

it('leaves a foreign file alone, and everything else unwritten', async () => {
  mkdirSync(bench.path('work'));
  writeFileSync(bench.path('work/plan.txt'), 'my notes');
  const result = await bench.run(['job', 'pond.svg', '--out', 'work']);
  expect(result.code).toBe(2);
  expect(result.err).toMatch(/work\/plan\.txt: .*--force/);
  expect(readdirSync(bench.path('work'))).toEqual(['plan.txt']);
  expect((await bench.run(['job', 'pond.svg', '--out', 'work', '--force'])).code).toBe(0);
});

it('does not overwrite the drawing', async () => {
  const before = bench.text('pond.svg');
  const result = await bench.run(['overview', 'pond.svg', '--out', 'pond.svg', '--force']);
  expect(result.code).toBe(2);
  expect(bench.text('pond.svg')).toBe(before);
});

it.each([
  [['regions', 'pond.svg', '--format', 'json', '--out', 'pond.plystep.json']],
  [['check', 'pond.svg', '--sidecar', 'own.json', '--out', 'own.json']],
  [['check', 'pond.svg', '--config', 'own.json', '--out', './own.json']],
  [['check', 'pond.svg', '--stack', 'stack.json', '--out', 'stack.json']],
])('does not overwrite what goes with the drawing: %j', async (args) => {
  writeFileSync(bench.path('own.json'), '{"schemaVersion":"1.0"}');
  writeFileSync(bench.path('stack.json'), '[{"thickness":3}]');
  const out = args.at(-1)!;
  const before = bench.text(out);
  const result = await bench.run([...args, '--force']);
  expect(result.code).toBe(2);
  expect(result.err).toContain('its sidecar, stack or settings');
  expect(bench.text(out)).toBe(before);
});

it('takes an ending that is no form of its own where the format is said', async () => {
  const result = await bench.run(['plan', 'pond.svg', '--format', 'text', '--out', 'plan.log']);
  expect(result.code, result.err).toBe(0);
  expect((await bench.run(['plan', 'pond.svg', '--out', 'plan'])).code).toBe(0);
});
