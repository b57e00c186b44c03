import { expect, it } from 'vitest';
import { PlystepError } from '../../src/error.js';
import { parseSidecar } from '../../src/relief/parse-sidecar.js';
import { staleSidecar } from '../../src/relief/sidecar.js';

const good = {
  schemaVersion: '1.0',
  drawing: { file: 'pond.svg', digest: 'abc' },
  stack: [{ thickness: '1/8 in', material: 'birch' }, { thickness: 6 }],
  frame: 'board-edge',
  joint: 'continuous',
  numbers: [
    { at: [1, 2], depth: 2, name: 'heron', face: 's2' },
    { at: [3, 4], depth: '-1', id: 'r2' },
    { at: [5, 6], depth: null, id: 'r3' },
  ],
};

function fault(change: (sidecar: Record<string, unknown>) => void): PlystepError {
  const copy = structuredClone(good) as Record<string, unknown>;
  change(copy);
  try {
    parseSidecar(JSON.stringify(copy));
  } catch (error) {
    if (error instanceof PlystepError) return error;
    throw error;
  }
  throw new Error('the sidecar was taken');
}

it('reads all members and leaves out what is still to be filled in', () => {
  const sidecar = parseSidecar(JSON.stringify(good));
  expect(sidecar.numbers).toEqual([
    { at: [1, 2], depth: 2, name: 'heron', face: 's2' },
    { at: [3, 4], depth: '-1' },
  ]);
  expect(sidecar.open).toBe(1);
  expect(sidecar.stack?.sheets.map((sheet) => sheet.thickness)).toEqual([3.175, 6]);
  expect([sidecar.frame, sidecar.joint]).toEqual(['board-edge', 'continuous']);
});

it('takes a sidecar with nothing but its version', () => {
  const sidecar = parseSidecar('{"schemaVersion":"1.3"}');
  expect(sidecar).toEqual({
    drawing: { file: null, digest: null },
    stack: null,
    frame: null,
    joint: null,
    numbers: [],
    open: 0,
  });
});

it.each([
  ['/schemaVersion', (s: Record<string, unknown>) => (s.schemaVersion = '2.0')],
  ['/numbers', (s: Record<string, unknown>) => (s.numbers = {})],
  ['/numbers/0/depth', (s: Record<string, unknown>) => (s.numbers = [{ at: [0, 0], depth: 'deep' }])],
  [
    '/numbers/1/at',
    (s: Record<string, unknown>) => (s.numbers = [...good.numbers.slice(0, 1), { at: [1], depth: 1 }]),
  ],
  ['/numbers/0', (s: Record<string, unknown>) => (s.numbers = [{ depth: 1 }])],
  ['/nubmers', (s: Record<string, unknown>) => (s.nubmers = [])],
  ['/a~1b', (s: Record<string, unknown>) => (s['a/b'] = 1)],
  ['/frame', (s: Record<string, unknown>) => (s.frame = 'round')],
  ['/drawing/digest', (s: Record<string, unknown>) => (s.drawing = { digest: 7 })],
])('says where it is wrong: %s', (pointer, change) => {
  const error = fault(change);
  expect(error.code).toBe('bad-sidecar');
  expect(error.message).toContain(`(at ${pointer})`);
});

it('gives line and column where the text is no JSON', () => {
  try {
    parseSidecar('{\n  "schemaVersion": "1.0",\n  "numbers": [1 2]\n}');
    expect.unreachable();
  } catch (error) {
    expect(error).toMatchObject({ code: 'bad-sidecar', place: { line: 3 } });
  }
});

it('warns where the drawing has changed since', () => {
  const sidecar = parseSidecar(JSON.stringify(good));
  expect(staleSidecar(sidecar, 'abc')).toBeNull();
  expect(staleSidecar(sidecar, 'def')).toMatchObject({ rule: 'stale-sidecar', level: 'warning' });
});
