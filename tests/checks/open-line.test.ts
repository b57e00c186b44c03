import { describe, expect, it } from 'vitest';
import { describePair, findingsOf } from '../support/check-pair.js';

describePair('open-line');

function find(shapes: string) {
  const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="60mm" viewBox="0 0 60 60" fill="none" stroke="black"><rect width="60" height="60"/>${shapes}</svg>`;
  return findingsOf(svg, { stack: '3 mm birch' })
    .filter(({ rule }) => rule === 'open-line' || rule === 'overshoot')
    .map(({ rule, level, measured }) => ({ rule, level, value: measured?.value }));
}

describe('open-line', () => {
  it('warns of an end that stops short of the line it heads for', () => {
    expect(find('<path d="M30 0 V58.5"/>')).toEqual([
      { rule: 'open-line', level: 'warning', value: expect.closeTo(1.5, 6) },
    ]);
  });

  it('notes a vein line, and one that passes near another line', () => {
    expect(find('<path d="M30 0 V40"/>')).toMatchObject([{ level: 'note' }]);
    expect(find('<path d="M10 20 H40"/>')).toMatchObject([{ level: 'note' }]);
    expect(find('<path d="M0 20 Q20 59 40 59"/>')).toMatchObject([{ level: 'note' }]);
  });

  it('warns of an outline that does not close, by the gap between its ends', () => {
    expect(find('<path d="M31 10 A20 20 0 1 1 29.5 10"/>')).toEqual([
      { rule: 'open-line', level: 'warning', value: expect.closeTo(1.5, 2) },
    ]);
  });

  it('leaves ends just past a crossing to a rule of their own', () => {
    expect(find('<path d="M0 30 H60"/><path d="M30 0 V30.7"/>')).toEqual([
      { rule: 'overshoot', level: 'warning', value: expect.closeTo(0.7, 6) },
    ]);
    expect(find('<path d="M0 30 H60"/><path d="M30 30 V30.7"/>')).toMatchObject([{ rule: 'open-line' }]);
  });

  it('gathers a tree of lines to one finding', () => {
    expect(find('<path d="M30 0 V30 M30 15 L40 25 M30 15 L20 25"/>')).toHaveLength(1);
  });
});
