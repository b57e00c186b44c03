import { describe, expect, it } from 'vitest';
import { describePair, foundBy, type Setup } from '../support/check-pair.js';

describePair('opening-splits-piece');

const find = (body: string, setup: Partial<Setup> & { legend?: Record<string, string> } = {}) =>
  foundBy(
    'opening-splits-piece',
    `<svg xmlns="http://www.w3.org/2000/svg" width="80mm" height="60mm" viewBox="0 0 80 60" stroke="black" fill="none">${body}</svg>`,
    { stack: '3x 3 mm birch', ...setup },
  );
const board = '<rect x="2" y="2" width="76" height="56" data-depth="1"/>';
const bar = '<rect x="10" y="20" width="60" height="20" data-depth="3" fill="#cc0000"/>';
const slot = '<rect x="35" y="10" width="10" height="40" data-depth="0" fill="white"/>';

describe('opening-splits-piece', () => {
  it('names the parts of the shape', () => {
    const [finding, ...rest] = find(board + bar + slot);
    expect(rest).toEqual([]);
    expect(finding.message).toMatch(/ into 2 pieces: /);
    expect(finding.regions).toHaveLength(3);
  });

  it('counts parts that hang together as one, by lines inside the shape too', () => {
    // The slot ends inside; and one whose sides are joined by a third region, off the slot.
    expect(
      find(`${board}${bar}<rect x="35" y="10" width="10" height="25" data-depth="0" fill="white"/>`),
    ).toEqual([]);
    const u = '<path d="M20 10H60V50H20Z" data-depth="3" fill="#cc0000"/>';
    const lines = '<path d="M20 40H60M40 40V50"/>';
    expect(
      find(`${board}${u}${lines}<rect x="35" y="5" width="10" height="30" data-depth="0" fill="white"/>`),
    ).toEqual([]);
  });

  it('counts every part of a shape cut by a cross', () => {
    const cross = '<path d="M38 5H42V28H75V32H42V55H38V32H5V28H38Z" data-depth="0" fill="white"/>';
    const [finding] = find(`${board}${bar}${cross}`);
    expect(finding.message).toMatch(/ into 4 pieces: /);
  });

  it('looks at shapes that a legend numbers', () => {
    const legend = { '#cc0000': '3', '#ffffff': '0', '#eeeeee': '1' };
    const plain = (board + bar + slot)
      .replaceAll(/ data-depth="\d"/g, '')
      .replace('56"', '56" fill="#eeeeee"');
    expect(find(plain, { legend })).toHaveLength(1);
  });

  it('leaves pieces that are numbered on their own alone', () => {
    const two =
      '<rect x="10" y="20" width="25" height="20" data-depth="3" fill="red"/><rect x="45" y="20" width="25" height="20" data-depth="3" fill="red"/>';
    expect(find(`${board}${two}${slot}`)).toEqual([]);
  });
});
