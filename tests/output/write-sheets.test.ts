import { describe, expect, it } from 'vitest';
import { readDrawing } from '../../src/drawing/read-drawing.js';
import { sheetIndex, sheetIndexHtml } from '../../src/output/sheet-index.js';
import { materialEdges, sheetMaterial } from '../../src/output/sheet-material.js';
import { writeSheets } from '../../src/output/write-sheets.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import { parseStack } from '../../src/relief/parse-stack.js';
import { planCuts } from '../../src/workshop/plan-cuts.js';
import { JOBS, reliefOf, shownGroups } from './jobs.js';

const descending = (values: readonly number[]): number[] => [...values].sort((a, b) => b - a);
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Writing rounds to 1e-4 mm, and nodes go to the grid again: areas move by the length of their border times this. */
const AREA_PER_BORDER = 2e-3;

describe.each(JOBS)('%s', (path) => {
  describe.each(['pieces', 'continuous'] as const)('as %s', (joint) => {
    const relief = reliefOf(path, joint);
    const { map } = relief;
    const sheets = writeSheets({ relief });

    it.each(relief.stack.sheets.map((sheet, index) => [sheet.id, index] as const))(
      'reads back the same regions from sheet %s',
      (id, index) => {
        const { svg } = sheets.find((sheet) => sheet.sheet === id)!;
        const back = mapRegions(readDrawing(svg), { gap: 0 });
        const material = sheetMaterial(relief, index);
        const groups = shownGroups(map, material);
        expect(back.regions.length).toBe(groups.length);
        const borders = sum(back.edges.map((edge) => edge.length)) + 1;
        const expected = descending(
          groups.map((group) => sum(group.map((region) => map.regions[region].area))),
        );
        descending(back.regions.map((region) => region.area)).forEach((area, i) => {
          expect(Math.abs(area - expected[i])).toBeLessThan(AREA_PER_BORDER * borders);
        });
        const drawn = sum(materialEdges(map, material).map((edge) => map.edges[edge].length));
        const read = sum(back.edges.filter((edge) => edge.kind === 'border').map((edge) => edge.length));
        expect(Math.abs(read - drawn)).toBeLessThan(1e-4 * drawn + 0.05);
      },
    );

    it('writes the same bytes again', () => {
      expect(writeSheets({ relief })).toEqual(sheets);
    });

    it('lists every sheet, with what it carries', () => {
      const index = sheetIndex({ relief }, sheets);
      expect(index.sheets.map((entry) => entry.name)).toEqual(sheets.map((sheet) => sheet.name));
      expect(sheetIndexHtml({ relief }, sheets, 'x').match(/<img /g)?.length).toBe(sheets.length);
    });
  });
});

const SQUARE_IN_DISC = `<svg xmlns="http://www.w3.org/2000/svg" width="40mm" height="40mm" viewBox="0 0 40 40">
  <circle cx="20" cy="20" r="15" fill="none" stroke="#000"/>
  <rect x="15" y="15" width="10" height="10" fill="none" stroke="#000"/>
  <text x="20" y="10" font-size="3" text-anchor="middle">3</text>
  <text x="20" y="21" font-size="3" text-anchor="middle">-1</text>
</svg>`;

const disc = (joint: 'pieces' | 'continuous', frame: 'cut' | 'board-edge' = 'cut') =>
  buildRelief(mapRegions(readDrawing(SQUARE_IN_DISC)), {
    stack: parseStack('6 mm oak, 3 mm birch, 4 mm birch'),
    joint,
    frame,
  });

const groupOf = (svg: string, id: string): string =>
  new RegExp(`<g id="${id}"[^>]*>([\\s\\S]*?)</g>`).exec(svg)?.[1] ?? '';

it('takes a recess out of the front sheets as pieces, out of the top levels when continuous', () => {
  const holes = (joint: 'pieces' | 'continuous'): [string, number][] =>
    writeSheets({ relief: disc(joint) }).map((sheet) => [
      `${sheet.name} ${sheet.sheet}`,
      groupOf(sheet.svg, 'cut').split('<path').length - 1,
    ]);
  expect(holes('pieces')).toEqual([
    ['sheet-1 s1', 2],
    ['sheet-2 s2', 1],
    ['sheet-3 s3', 1],
  ]);
  expect(holes('continuous')).toEqual([
    ['level-1 s3', 1],
    ['level-2 s2', 1],
    ['level-3 s1', 2],
  ]);
});

it('keeps curves, at true size, each line once, inner lines first', () => {
  const [front] = writeSheets({ relief: disc('pieces') }, { margin: 0, marks: false });
  expect(front.svg).toContain('width="40mm" height="40mm" viewBox="0 0 40 40"');
  const paths = [...groupOf(front.svg, 'cut').matchAll(/ d="([^"]+)"/g)].map((match) => match[1]);
  expect(paths).toHaveLength(2);
  expect(paths[0]).toMatch(/^M[^A]*Z$/);
  expect(paths[1]).toMatch(/A15 15 0 /);
});

it('sets the edge of the board apart where it is not sawn', () => {
  const [front] = writeSheets({ relief: disc('pieces', 'board-edge') });
  expect(groupOf(front.svg, 'board-edge')).toContain('A15 15');
  expect(groupOf(front.svg, 'cut')).not.toContain('A15 15');
});

it('marks pieces as the plan calls them, with the sheet that this is', () => {
  const relief = disc('pieces');
  const sheets = writeSheets({ relief }, { title: 'Disc' });
  expect(groupOf(sheets[1].svg, 'marks')).toContain(`>${relief.bodies[0].id} s2</text>`);
  expect(sheets[1].title).toBe('Disc \u2013 sheet 2 of 3, s2: birch, 3 mm');
  const plain = writeSheets({ relief: disc('pieces') }, { marks: false, registration: false });
  expect(plain[0].svg).not.toMatch(/id="(marks|registration)"/);
});

describe.each(JOBS)('the marks on the sheets of %s', (path) => {
  /** Ids of a sheet's marks, without the sheet that may stand behind them. */
  const idsOn = (svg: string, sheet: string): string[] =>
    [...svg.slice(svg.indexOf('<g id="marks"')).matchAll(/<text [^>]*font-size="([^"]+)">([^<]*)</g)].map(
      ([, size, text]) => {
        expect(Number(size)).toBeGreaterThan(2);
        return text.replace(new RegExp(` ${sheet}$`), '');
      },
    );

  it.each(['pieces', 'continuous'] as const)('name each part as the plan does, as %s', (joint) => {
    const relief = reliefOf(path, joint);
    const { pieces } = planCuts(relief);
    for (const { sheet, svg } of writeSheets({ relief })) {
      if (sheet === null) continue;
      const parts = pieces.filter(({ sheets }) => sheets.includes(sheet)).map(({ id }) => id);
      const spares = new Set(relief.bodies.flatMap(({ spares }) => spares));
      if (!spares.has(sheet)) expect(idsOn(svg, sheet)).toEqual(parts);
      else expect(parts).toEqual(expect.arrayContaining(idsOn(svg, sheet)));
    }
  });
});
