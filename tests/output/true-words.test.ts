import { describe, expect, it } from 'vitest';
import type { Bounds } from '../../src/geometry/point.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { writeDrawing } from '../../src/output/write-drawing.js';
import { JOBS, planOf } from './jobs.js';
import {
  boxesShare,
  labelsIn,
  labelsOnLabels,
  labelsOnLines,
  type Segment,
  segmentsOf,
} from './written-labels.js';

/** A drawing at true size as written: its words, the lines to saw, the lines from words to marks, and the marks. */
interface Written {
  readonly words: ReturnType<typeof labelsIn>;
  readonly lines: readonly Segment[];
  readonly leaders: readonly Segment[];
  readonly marks: readonly Bounds[];
}

const between = (text: string, from: string, to: string): string => {
  const start = text.indexOf(from);
  return start < 0 ? '' : text.slice(start, text.indexOf(to, start));
};

const paths = (svg: string): Segment[] =>
  [...svg.matchAll(/ d="([^"]+)"/g)].flatMap(([, d]) => segmentsOf(d));

const marksIn = (svg: string): Bounds[] =>
  [...svg.matchAll(/<circle cx="([^"]+)" cy="([^"]+)" r="([^"]+)"/g)].map(([, cx, cy, radius]) => {
    const [x, y, r] = [cx, cy, radius].map(Number);
    return [x - r, y - r, x + r, y + r];
  });

/** The drawing on the last pages of the printed plan. */
function onPages(path: string): Written {
  const html = writePlanHtml(planOf(path));
  const own = between(html, '<g id="true-size">', '</defs>');
  const outlines = new Map([...html.matchAll(/<path id="([^"]+)" d="([^"]*)"/g)].map(([, id, d]) => [id, d]));
  const seen = [...own.matchAll(/<use href="#([^"]+)"/g)].flatMap(([, id]) => segmentsOf(outlines.get(id)!));
  const veins = [...own.matchAll(/<path d="([^"]+)" class="(?:line|way-in true-way)"/g)];
  return {
    words: ['steps-at', 'faint'].flatMap((name) => labelsIn(between(own, `<g class="${name}">`, '</g>'))),
    lines: [...seen, ...veins.flatMap(([, d]) => segmentsOf(d))],
    leaders: paths(between(own, '<g class="aside">', '</g>')),
    marks: marksIn([...own.matchAll(/<circle [^>]*class="hole"/g)].join('')),
  };
}

/** The drawing as a file of its own. */
function inFile(path: string): Written {
  const svg = writeDrawing(planOf(path));
  const groups = ['marks', 'cutouts', 'steps'].map((id) => {
    const from = svg.indexOf(`<g id="${id}"`);
    return from < 0 ? '' : svg.slice(from, svg.indexOf('<g id=', from + 1));
  });
  return {
    words: groups.flatMap(labelsIn),
    lines: paths(between(svg, '<g id="lines"', '</g>') + between(svg, '<g id="ways"', '</g>')),
    leaders: groups.flatMap((group) => paths(between(group, '<g class="leaders"', '</g>'))),
    marks: marksIn(between(svg, '<g id="holes"', '</g>')),
  };
}

/** So many words a line to another mark may pass under, in the crowd of windows on the harbour; elsewhere none. */
const PASSED: Readonly<Record<string, number>> = { 'fixtures/harbour/harbour': 4 };

describe.each(JOBS)('the words on the drawing of %s', (path) => {
  it.each([
    ['on the pages', onPages],
    ['in its file', inFile],
  ])('stand %s on no line, no mark and no other word', (_, written) => {
    const { words, lines, leaders, marks } = written(path);
    expect(words.length).toBeGreaterThan(planOf(path).pieces.length);
    expect(lines.length).toBeGreaterThan(100);
    expect(labelsOnLines(words, lines)).toEqual([]);
    expect(labelsOnLabels(words)).toEqual([]);
    expect(words.filter(({ box }) => marks.some((mark) => boxesShare(box, mark)))).toEqual([]);
    expect(labelsOnLines(words, leaders).length).toBeLessThanOrEqual(PASSED[path] ?? 0);
  });

  it('name the cutout that a hole lies in right beside the number of its step', () => {
    const plan = planOf(path);
    const words = labelsIn(writeDrawing(plan));
    let number = 0;
    for (const { steps, phase } of plan.passes) {
      for (const { start, frees } of steps) {
        number++;
        if (phase === 'add-ons' || start.region === undefined || frees !== 'waste') continue;
        const { id } = plan.relief.map.regions[start.region];
        const [cutout, ...more] = words.filter(({ text }) => text === id);
        expect(more).toEqual([]);
        const step = words.find(({ text }) =>
          text.split('; ').some((one) => Number.parseInt(one, 10) === number),
        )!;
        expect(cutout.box[0] - step.box[2]).toBeLessThan(2);
        expect(cutout.box[0]).toBeGreaterThan(step.box[2] - 0.2);
      }
    }
  });
});
