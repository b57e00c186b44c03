import { describe, expect, it } from 'vitest';
import { planCanvas } from '../../src/output/plan-canvas.js';
import { stepGroups } from '../../src/output/plan-step-groups.js';
import { outlineField, wayIn } from '../../src/output/plan-way-in.js';
import { wayIsFree } from '../../src/output/segment-field.js';
import { measurePages } from '../bench/plan-pages.js';
import { planFixture } from '../support/plan-fixture.js';

describe('stepGroups', () => {
  it('gives every step a picture of its own up to some hundreds', () => {
    const plan = planFixture('harbour');
    const groups = [...stepGroups(planCanvas(plan)).values()];
    expect(groups).toHaveLength(plan.passes.reduce((sum, pass) => sum + pass.steps.length, 0));
    expect(groups.every((group) => group.length === 1)).toBe(true);
  });

  it('puts steps that lie side by side into one picture where there are more, none left out', () => {
    const { html, steps, perStep } = measurePages(400);
    const shown = [...html.matchAll(/<h3><b>(\d+)<\/b>/g)].map((match) => Number(match[1]));
    expect(steps).toBeGreaterThan(300);
    expect(shown).toEqual(Array.from({ length: steps }, (_, i) => i + 1));
    const pictures = [...html.matchAll(/<svg class="near"/g)].length;
    expect(pictures).toBeLessThan(steps / 1.5);
    // docs/plan.md states what a step takes of the page.
    expect(perStep).toBeLessThan(4000);
  });
});

describe('wayIn', () => {
  const plan = planFixture('owl');
  const { shapes, drawing } = planCanvas(plan);
  const field = outlineField(plan.relief.map.edges, (e) => shapes.chords(e));
  const starts = plan.passes.flatMap((pass) => pass.steps.map((step) => step.start));

  it('finds a way from the edge of the board that crosses no line of the drawing', () => {
    const fromBoard = starts.filter(({ by }) => by === 'board');
    expect(fromBoard.length).toBeGreaterThan(3);
    for (const { at } of fromBoard) {
      const way = wayIn(field, drawing, at);
      expect(way.length).toBeGreaterThanOrEqual(2);
      expect(way[way.length - 1]).toEqual(at);
      const [x, y] = way[0];
      expect(x < drawing[0] || x > drawing[2] || y < drawing[1] || y > drawing[3]).toBe(true);
      for (let i = 1; i < way.length - 1; i++) expect(wayIsFree(field, way[i - 1], way[i])).toBe(true);
    }
  });
});
