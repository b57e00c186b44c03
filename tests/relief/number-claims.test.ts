import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { regionAt } from '../../src/plane/region-at.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { isNumberText } from '../../src/relief/number-claims.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import type { ReliefOptions } from '../../src/relief/relief.js';

const stack = parseStack('4x 3 mm birch');

function reliefOf(shapes: string, options: Partial<ReliefOptions> = {}) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40" font-size="3" text-anchor="middle" dominant-baseline="central">${shapes}</svg>`;
  const map = mapRegions(readDrawing(svg));
  const relief = buildRelief(map, { stack, ...options });
  return { relief, at: (x: number, y: number) => relief.regions[regionAt(map, [x, y])] };
}

const FRAME = '<rect x="0" y="0" width="60" height="40" fill="none" stroke="black"/>';
const DISC = '<circle cx="30" cy="20" r="10" fill="none" stroke="black"/>';

describe('numbers of a region', () => {
  it('come from the strongest source, and keep the others', () => {
    const shapes = `${FRAME}<circle cx="30" cy="20" r="10" data-depth="3" fill="#ff0000"/><text x="30" y="20">4</text>`;
    const legend = { '#FF0000': '0' };
    const middle = { at: [30, 20] as const };
    const all = { legend, numbers: [{ ...middle, depth: 1 }], sidecar: [{ ...middle, depth: '2' }] };
    const { at } = reliefOf(shapes, all);
    expect(at(30, 20).claims.map(({ source, text }) => [source, text])).toEqual([
      ['caller', '1'],
      ['sidecar', '2'],
      ['attribute', '3'],
      ['label', '4'],
      ['legend', '0'],
    ]);
    expect(at(30, 20).label).toBe('1');
    expect(reliefOf(shapes, { legend }).at(30, 20).label).toBe('3');
  });

  it('come from a data-depth on a group, and from the topmost shape', () => {
    const group = `<g data-depth="1" fill="none" stroke="black">${FRAME}${DISC}<rect x="26" y="16" width="8" height="8" data-depth="2"/></g>`;
    const { at } = reliefOf(group);
    expect(at(3, 3).label).toBe('1');
    expect(at(22, 20).label).toBe('1');
    expect(at(30, 20).label).toBe('2');
  });

  it('come from a shape further down only where nothing else numbers the region', () => {
    const frame = FRAME.replace('<rect', '<rect data-depth="1"');
    const without = reliefOf(`${frame}${DISC}`);
    expect(without.at(30, 20).claims).toMatchObject([{ source: 'attribute', text: '1', inherited: true }]);
    const labelled = reliefOf(`${frame}${DISC}<text x="30" y="20">3</text>`);
    expect(labelled.at(30, 20).label).toBe('3');
  });

  it('do not come through an opaque fill', () => {
    const frame = FRAME.replace('<rect', '<rect data-depth="1"');
    const { at } = reliefOf(`${frame}<circle cx="30" cy="20" r="10" fill="#ffffff" stroke="black"/>`);
    expect(at(30, 20).label).toBeNull();
  });

  it('are read from labels, and other texts are names', () => {
    const { at } = reliefOf(
      `${FRAME}${DISC}<text x="30" y="18">\u22121</text><text x="30" y="24">moon</text><text x="5" y="5">2</text>`,
    );
    expect(at(30, 20)).toMatchObject({ label: '\u22121', role: 'recess', name: 'moon' });
  });

  it('has for its name what is said first of: the caller, the sidecar, a text, the names of the topmost shape', () => {
    const disc =
      '<g id="sky"><circle id="circle7" cx="30" cy="20" r="10" fill="none" stroke="black"><title>Full moon</title></circle></g>';
    const nameOf = (content: string, options: Parameters<typeof reliefOf>[1] = {}): string | null =>
      reliefOf(content, options).at(30, 20).name;
    const text = '<text x="30" y="20">moon</text>';
    const entry = (name: string) => [{ at: [30, 20], depth: 1, name }] as const;
    expect(nameOf(`${FRAME}${disc.replace(/<title>.*<\/title>/, '')}`)).toBe('sky');
    expect(nameOf(FRAME + disc)).toBe('Full moon');
    expect(nameOf(`${FRAME}${disc}${text}`)).toBe('moon');
    expect(nameOf(`${FRAME}${disc}${text}`, { sidecar: entry('Luna') })).toBe('Luna');
    expect(nameOf(`${FRAME}${disc}${text}`, { sidecar: entry('Luna'), numbers: entry('Selene') })).toBe(
      'Selene',
    );
  });

  it('that reach no region are listed', () => {
    const { relief } = reliefOf(FRAME, {
      numbers: [{ region: 'r99', depth: 1 }],
      sidecar: [{ at: [99, 99], depth: 2 }],
    });
    expect(relief.unplaced).toEqual([
      { source: 'caller', text: '1', at: null, region: 'r99' },
      { source: 'sidecar', text: '2', at: [99, 99], region: null },
    ]);
  });

  it('that can not be read leave the word to the next source', () => {
    const { at } = reliefOf(`${FRAME}<text x="5" y="5">2</text>`, {
      sidecar: [{ at: [5, 5], depth: 'two' }],
    });
    expect(at(5, 5)).toMatchObject({ label: '2', depth: 2 });
  });
});

describe('add-ons of their own shape', () => {
  it('rest on what lies under them and number it nothing', () => {
    const { relief, at } = reliefOf(
      `${FRAME}<circle cx="30" cy="20" r="10" data-depth="+2" fill="none" stroke="black"/><text x="5" y="5">2</text>`,
    );
    expect(relief.addOns).toMatchObject([{ sheets: 2, shared: false, order: ['s1', 's2'], thickness: 6 }]);
    expect(at(30, 20)).toMatchObject({ role: 'add-on', body: null, depth: 2, height: 12 });
    expect(at(5, 5)).toMatchObject({ role: 'piece', height: 6 });
  });
});

describe('isNumberText', () => {
  it.each(['1', '0', '-1', '\u22122', '+', '+2', '2.5', '1,5', '-', '- 1'])(
    'takes %j for a number',
    (text) => {
      expect(isNumberText(text)).toBe(true);
    },
  );

  it.each(['', 'a', '3 boats', 'no 4', '1st', '12:30', '2-3', '1/4'])('takes %j for a name', (text) => {
    expect(isNumberText(text)).toBe(false);
  });
});
