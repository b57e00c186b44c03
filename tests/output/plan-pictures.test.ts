import { describe, expect, it } from 'vitest';
import { kerfRoutes } from '../../src/output/kerf-routes.js';
import { planCanvas } from '../../src/output/plan-canvas.js';
import { writePlanHtml } from '../../src/output/plan-html.js';
import { distanceToChords } from '../../src/output/plan-marks.js';
import { walkPlan } from '../../src/output/plan-progress.js';
import { writePlanText } from '../../src/output/plan-text.js';
import { writeDrawing } from '../../src/output/write-drawing.js';
import { stepCurves } from '../../src/workshop/step-curves.js';
import { JOBS, planOf } from './jobs.js';

const pages = new Map<string, string>();

function pageOf(path: string): string {
  const page = pages.get(path) ?? writePlanHtml(planOf(path));
  pages.set(path, page);
  return page;
}

const circles = (svg: string, rest: RegExp) =>
  [...svg.matchAll(/<circle cx="([^"]+)" cy="([^"]+)" r="([^"]+)"([^>]*)>/g)]
    .filter(([, , , , more]) => rest.test(more))
    .map(([, x, y, r]) => ({ x: Number(x), y: Number(y), r: Number(r) }));

describe.each(JOBS)('the pictures of %s', (path) => {
  const plan = planOf(path);

  it('show a way back that leads from the end of a part to the beginning of the next', () => {
    const canvas = planCanvas(plan);
    const routes = kerfRoutes(canvas);
    let [parts, found] = [0, 0];
    walkPlan(plan, (progress, pass, step) => {
      if (step === null || pass.phase === 'add-ons') return;
      const runs = stepCurves(plan.relief.map, step, canvas.shapes);
      const ways = routes.between(pass, step, progress);
      // A line that begins at a joint between its curves is one part.
      if (step.joint === 0) expect(ways).toHaveLength(runs.length - 1);
      ways.forEach((way, i) => {
        parts++;
        if (way === null || step.joint > 0) return;
        found++;
        const [end, begin] = [runs[i][runs[i].length - 1].to, runs[i + 1][0].from];
        for (const [point, other] of [
          [way[0], end],
          [way[way.length - 1], begin],
        ] as const) {
          expect(Math.hypot(point[0] - other[0], point[1] - other[1])).toBeLessThan(1e-6);
        }
      });
      routes.saw(step);
    });
    // Parts that are come to from the edge of the board have none.
    const fromBoard = plan.passes.flatMap(({ steps }) =>
      steps.flatMap(({ waysIn = [] }) => waysIn.filter(({ run }) => run > 0)),
    );
    expect(found).toBe(parts - fromBoard.length);
  });

  it('tell a way in that is open from one that is sawn', () => {
    const page = pageOf(path);
    const ways = plan.passes.flatMap(({ steps }) => steps.flatMap(({ waysIn = [] }) => waysIn));
    const legend = /<ul class="legend">(.*?)<\/ul>/s.exec(page)?.[1] ?? '';
    const count = (name: string): number =>
      page.replace(legend, '').match(new RegExp(`class="${name}"`, 'g'))?.length ?? 0;
    const open = ways.filter(({ from }) => from === 'open').length;
    expect(count('way-open')).toBeGreaterThanOrEqual(open);
    expect(count('way-in')).toBe(ways.length - open);
    expect(legend.includes('way-open')).toBe(count('way-open') > 0);
  });

  it('draw the open ways that a step goes by, each where it was sawn', () => {
    const page = pageOf(path);
    const cards = [
      ...page.matchAll(/<svg class="near"[^>]*>(.*?)<\/svg><div class="say">.*?<b>(\d+)<\/b>/gs),
    ];
    const drawn = new Map(
      cards.map(([, svg, number]) => [
        Number(number),
        [...svg.matchAll(/<path d="M([^"]+)" class="way-open"/g)].map(([, d]) =>
          d.split('L').map((at) => at.split(' ').map(Number) as [number, number]),
        ),
      ]),
    );
    const sawn: string[] = [];
    const text = (points: readonly (readonly number[])[]): string =>
      points.map((at) => at.map((v) => v.toFixed(2)).join(' ')).join('L');
    let number = 0;
    for (const { steps } of plan.passes) {
      for (const { waysIn = [] } of steps) {
        number++;
        const open = drawn.get(number) ?? [];
        const own = waysIn.map(({ points }) => text(points));
        for (const way of open) expect([...sawn, ...own]).toContain(text(way));
        for (const { from, points } of waysIn) {
          if (from !== 'way') continue;
          // It comes out of one of those that are drawn.
          const far = Math.min(...open.map((way) => distanceToChords(points[0], way)));
          expect(far, `step ${number}`).toBeLessThan(0.02);
        }
        sawn.push(...waysIn.filter(({ from }) => from !== 'open').map(({ points }) => text(points)));
      }
    }
  });

  it('have the letter of a block where no number points', () => {
    const scenes = [...pageOf(path).matchAll(/<div class="scene">(.*?)<\/div>/gs)].map(([, svg]) => svg);
    expect(scenes.length).toBeGreaterThan(0);
    for (const svg of scenes) {
      const dots = circles(svg, /^\s*\/?$/);
      const letters = circles(svg, /class="letter"/);
      for (const letter of letters) {
        for (const dot of dots)
          expect(Math.hypot(dot.x - letter.x, dot.y - letter.y)).toBeGreaterThan(letter.r);
      }
    }
  });

  it('have every number of the glue-up', () => {
    const steps = plan.glueUp?.steps ?? [];
    if (steps.length < 2) return;
    const page = pageOf(path);
    const caption = page.indexOf('The numbers are those of the list');
    const svg = page.slice(page.lastIndexOf('<figure', caption), caption);
    const numbers = [...svg.matchAll(/>(\d+)<\/text>/g)].map(([, n]) => Number(n));
    expect(numbers.sort((a, b) => a - b)).toEqual(steps.map((_, i) => i + 1));
    // What goes in as a whole has its number on a joint, and the caption says so.
    const said = page.slice(caption, page.indexOf('</figcaption>', caption));
    steps.forEach(({ kind }, i) => {
      if (kind !== 'assembly') return;
      expect(said).toMatch(new RegExp(`\\b${i + 1}\\b.* stands on the joint that is glued then`));
    });
  });

  it('show both words of a stack whole', () => {
    const stacks = [...pageOf(path).matchAll(/<svg viewBox="0 0 66 ([^"]+)" role="img">(.*?)<\/svg>/gs)];
    expect(stacks).toHaveLength(plan.passes.length);
    for (const [, height, svg] of stacks) {
      const at = (word: string): number => Number(new RegExp(`y="([^"]+)">${word}<`).exec(svg)?.[1]);
      // Type of 4.6: letters reach 3.4 up and 1.1 down.
      expect(at('front')).toBeGreaterThan(3.5);
      expect(at('back') + 1.2).toBeLessThan(Number(height));
    }
  });

  it('show the edge of the least board where the outline is sawn out of one', () => {
    const { width, height } = plan.board;
    const text = `edge of the least board, ${Math.ceil(width)} × ${Math.ceil(height)} mm`;
    const isCut = plan.relief.frame === 'cut';
    expect(writeDrawing(plan).includes(text)).toBe(isCut);
    // The fretwork's pages have less room than the board: a further page would show nothing but waste.
    expect(pageOf(path).includes(text)).toBe(isCut && !path.includes('fretwork'));
    const rect = /<g id="board">\s*<rect x="[^"]+" y="[^"]+" width="([^"]+)" height="([^"]+)"/.exec(
      writeDrawing(plan),
    );
    expect(rect !== null).toBe(isCut);
    if (rect !== null) {
      expect(Number(rect[1])).toBeCloseTo(width, 3);
      expect(Number(rect[2])).toBeCloseTo(height, 3);
    }
  });

  it('name every cutout on the drawing and in a table', () => {
    const { regions, map } = plan.relief;
    const cutouts = regions.flatMap(({ role }, r) =>
      role === 'recess' || role === 'opening' ? [map.regions[r].id] : [],
    );
    const drawing = writeDrawing(plan);
    const text = writePlanText(plan);
    for (const id of cutouts) {
      expect(drawing).toContain(`>${id}</text>`);
      expect(text).toMatch(new RegExp(`^${id} .*\\d`, 'm'));
    }
  });
});

it('a part begins at what is open beside the end of the one before, not far round', () => {
  const plan = planOf('fixtures/harbour/harbour');
  const routes = kerfRoutes(planCanvas(plan));
  const lengths: number[] = [];
  walkPlan(plan, (progress, pass, step) => {
    if (step === null || pass.phase === 'add-ons') return;
    for (const way of routes.between(pass, step, progress)) {
      if (way === null) continue;
      lengths.push(
        way.slice(1).reduce((sum, [x, y], i) => sum + Math.hypot(x - way[i][0], y - way[i][1]), 0),
      );
    }
    routes.saw(step);
  });
  expect(lengths.length).toBeGreaterThan(20);
  expect(Math.max(...lengths)).toBeLessThan(150);
});

it('the legend tells what a number alone is, and how settings are told from sheets', () => {
  const legend = /<ul class="legend">(.*?)<\/ul>/s.exec(pageOf('fixtures/harbour/harbour'))?.[1] ?? '';
  expect(legend).toContain('a number alone: the step');
  expect(legend).toContain('set 2');
  expect(legend).toContain('s2 is sheet 2');
});
