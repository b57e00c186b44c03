import type { Workshop } from './cut-plan.js';

/** What takes time in a step. */
export interface SawWork {
  /** mm */
  readonly length: number;
  /** Height of the sheets in the saw, mm. */
  readonly height: number;
  readonly corners: number;
  readonly threaded: boolean;
  readonly drilled: boolean;
}

/**
 * Minutes for a piece of work at the saw.
 *
 * Feed model (common practice, no source). The blade takes away the same volume in the same time, so the feed
 * falls as 1 / height; above the height at which the gullets no longer clear their dust it falls as
 * 1 / height²:
 *
 *   minutes = length · height / feed · max(1, height / easyHeight)
 *           + corners · cornerMinutes + threading + hole
 *
 * and all of it times the pace of the person (`paceOf`).
 */
export function sawMinutes(workshop: Workshop, work: SawWork, pace = paceOf(workshop)): number {
  return pace * bareMinutes(workshop, work);
}

/** How much longer than by the model a person takes: by the job that is known, else 1. */
export function paceOf(workshop: Workshop): number {
  const job = workshop.knownJob;
  if (job === null) return 1;
  const { length, height, corners = 0, threadings = 0 } = job;
  const sawing = bareMinutes(workshop, { length, height, corners, threaded: false, drilled: false });
  return job.minutes / (sawing + threadings * workshop.threadMinutes);
}

/**
 * Least and most minutes around a figure: a person who gave a known job is met within a fifth or so, the
 * defaults only within a factor of two. Common practice, no source.
 */
export function timeRange(workshop: Workshop, minutes: number): readonly [least: number, most: number] {
  const spread = workshop.knownJob === null ? UNKNOWN_SPREAD : KNOWN_SPREAD;
  return [minutes / spread, minutes * spread];
}

const UNKNOWN_SPREAD = 2;
const KNOWN_SPREAD = 1.25;

function bareMinutes(workshop: Workshop, work: SawWork): number {
  return (
    ((work.length * work.height) / workshop.feed) * Math.max(1, work.height / workshop.easyHeight) +
    work.corners * workshop.cornerMinutes +
    (work.threaded ? workshop.threadMinutes : 0) +
    (work.drilled ? workshop.drillMinutes : 0)
  );
}
