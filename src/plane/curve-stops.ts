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
  return { ...meeting, ta: turnA ? 1 - meeting.ta : meeting.ta, tb: turnB ? 1 - meeting.tb : meeting.tb };
}

function isBackwards({ from, to }: Curve): boolean {
  return to[0] < from[0] || (to[0] === from[0] && to[1] < from[1]);
}
