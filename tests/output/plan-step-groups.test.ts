import { describe, expect, it } from 'vitest';
import { planCanvas } from '../../src/output/plan-canvas.js';
import { stepGroups } from '../../src/output/plan-step-groups.js';
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
