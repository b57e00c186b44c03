import type { Bounds } from '../geometry/point.js';
import type { CutPlan } from '../workshop/cut-plan.js';
import type { PlacedLabel } from './label-request.js';
import type { PlanCanvas } from './plan-canvas.js';
import { cutoutRegions } from './plan-content-cutouts.js';
import { bareBits, type TrueStart, takenByStarts, trueStarts } from './true-starts.js';
import { placeTrueWords, type TrueWord, trueLines, wordsApart } from './true-words.js';

/** What stands on the drawing at true size beside its lines. */
export interface TrueDrawing {
  readonly starts: readonly TrueStart[];
  /** The ids of pieces and add-ons. */
  readonly ids: readonly PlacedLabel[];
  /** The regions of cutouts, as the steps name them. */
  readonly cutouts: readonly PlacedLabel[];
  /** What is said beside the starts, in their order. */
  readonly steps: readonly PlacedLabel[];
  /** A sentence with the bits of the holes whose number stands alone; empty where there is none. */
  readonly bits: string;
}

/**
 * Lays out ids and starts on the drawing at true size, off the lines and off each other.
 *
 * @param area where words may stand
 * @param more segments (x0, y0, x1, y1 each, mm) that words keep off too, such as the edges of pages
 * @param taken boxes that no word covers
 */
export function layOutTrueDrawing(
  canvas: PlanCanvas,
  area: Bounds,
  more: readonly number[] = [],
  taken: readonly Bounds[] = [],
): TrueDrawing {
  const starts = trueStarts(canvas, area);
  const { boxes, segments } = takenByStarts(starts);
  const ids = idWords(canvas.plan);
  // A cutout with a hole in it is named beside that.
  const told = new Set(starts.flatMap(({ word }) => word.also ?? []));
  const cutouts = cutoutWords(canvas.plan).filter(({ text }) => !told.has(text));
  const words = [...ids, ...cutouts, ...starts.map(({ word }) => word)];
  const { map } = canvas.plan.relief;
  const lines = trueLines(map, map.edges, [...segments, ...more]);
  const placed = placeTrueWords(words, lines, area, [...boxes, ...taken]);
  const [named, all] = [ids.length, ids.length + cutouts.length];
  const apart = placed.slice(all).map(wordsApart);
  const steps = apart.map(([step]) => step);
  return {
    starts,
    ids: placed.slice(0, named),
    cutouts: [...placed.slice(named, all), ...apart.flatMap(([, cutout]) => cutout ?? [])],
    steps,
    bits: bareBits(
      starts,
      steps.map(({ request }) => request.id),
    ),
  };
}

/** Each cutout with the id of its region. */
function cutoutWords(plan: CutPlan): TrueWord[] {
  return cutoutRegions(plan).map((r) => {
    const { id, labelPoint, labelRoom } = plan.relief.map.regions[r];
    return { text: id, at: labelPoint, room: labelRoom };
  });
}

/** Each piece and add-on with its id in the plan and that of its region; of continuous sheets the parts of the front one. */
function idWords({ relief, pieces }: CutPlan): TrueWord[] {
  const { map } = relief;
  const front = relief.stack.sheets[0]?.id;
  const shown = relief.joint === 'pieces' ? pieces : pieces.filter(({ sheets }) => sheets[0] === front);
  return [...shown, ...relief.addOns].map(({ id, region }) => {
    const { id: name, labelPoint, labelRoom } = map.regions[region];
    const place = { at: labelPoint, room: labelRoom };
    // A part of a continuous sheet is many regions.
    return relief.joint === 'pieces' || map.regions[region].addOn
      ? { ...place, text: `${id} ${name}`, short: id }
      : { ...place, text: id };
  });
}
