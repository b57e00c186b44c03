import { type Curve, reverseCurve } from '../geometry/curve.js';
import { type Meeting, refineMeeting } from '../geometry/curve-meeting.js';

/** Curve points that lie nearer than this, mm, are one stop (a thousandth of a grid step). */
export const SAME_STOP = 1e-6;

/** The meeting of two curves, by the same arithmetic for both directions of each. */
export function meetingOf(a: Curve, ta: number, b: Curve, tb: number): Meeting | null {
  const turnA = isBackwards(a);
  const turnB = isBackwards(b);
  const meeting = refineMeeting(
    turnA ? reverseCurve(a) : a,
    turnA ? 1 - ta : ta,
    turnB ? reverseCurve(b) : b,
    turnB ? 1 - tb : tb,
  );
  if (meeting === null) return null;
  const { ta: onA, tb: onB, point, gap } = meeting;
  return { ta: turnA ? 1 - onA : onA, tb: turnB ? 1 - onB : onB, point, gap };
}

function isBackwards({ from, to }: Curve): boolean {
  return to[0] < from[0] || (to[0] === from[0] && to[1] < from[1]);
}
