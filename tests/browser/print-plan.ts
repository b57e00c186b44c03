import { writePlanHtml } from '../../src/output/plan-html.js';
import { planFixture } from '../support/plan-fixture.js';

/** The pages that are printed in a browser, with what must be on them. */
export function plansToPrint(root: URL): { name: string; html: string; steps: number }[] {
  return (['owl', 'fretwork'] as const).map((name) => {
    const plan = planFixture(name, { root });
    const steps = plan.passes.reduce((sum, pass) => sum + pass.steps.length, 0);
    return { name, html: writePlanHtml(plan, { title: name }), steps };
  });
}
