import type { CutStep, Pass, Workshop } from './cut-plan.js';
import { sawMinutes } from './saw-time.js';

/**
 * Says where the blade has to be taken out of the work that it is caught in, to come in from outside at the next
 * step: it is unclamped and clamped again, which takes as long as a threading. Where the next step threads it
 * through another place, that is counted there.
 */
export function withReleases(passes: readonly Pass[], workshop: Workshop): Pass[] {
  const work = { length: 0, height: 0, corners: 0, threaded: true, drilled: false };
  const minutes = sawMinutes(workshop, work);
  let captive = false;
  return passes.map((pass) => {
    let more = 0;
    const steps = pass.steps.map((step): CutStep => {
      const released = captive && !step.start.threaded;
      captive = step.captive === true;
      if (!released) return step;
      more += minutes;
      return { ...step, start: { ...step.start, released: true }, minutes: step.minutes + minutes };
    });
    return more === 0 ? pass : { ...pass, steps, minutes: pass.minutes + more };
  });
}
