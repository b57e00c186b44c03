import type { Point } from '../geometry/point.js';
import type { PlanCanvas } from './plan-canvas.js';
import { GLUE_MAP_HEIGHT, type MapLabel, mapUnit } from './plan-labels.js';
import { tinted, whole } from './plan-maps.js';
import { pointAlong } from './plan-marks.js';
import { joinNumbers } from './plan-words.js';

/** The number of a step of the glue-up in its picture. */
interface GlueNumber {
  readonly number: number;
  readonly label: MapLabel;
  /** It goes in as a whole. */
  readonly isAssembly: boolean;
  /** It stands on the line where it meets what it goes into. */
  readonly onJoint: boolean;
}

/**
 * The pieces again, each with the number of its place in the glue-up; that of what goes in as a whole stands where it
 * meets what it goes into, else in its widest piece.
 */
export function glueMap(canvas: PlanCanvas): string {
  const labels = glueNumbers(canvas).map(({ label }) => label);
  return whole(canvas, 'map glue', tinted(canvas), labels, [], mapUnit(canvas.page, GLUE_MAP_HEIGHT));
}

/** What is said below the picture: which numbers are finished assemblies, and where these stand. */
export function glueCaption(canvas: PlanCanvas): string {
  const wholes = glueNumbers(canvas).filter(({ isAssembly }) => isAssembly);
  const on = wholes.filter(({ onJoint }) => onJoint).map(({ number }) => number);
  const off = wholes.filter(({ onJoint }) => !onJoint).map(({ number }) => number);
  return [
    'The numbers are those of the list: the order of the glue-up.',
    ...assemblyWords(on, 'stands on the joint', 'that is glued then, not on a piece'),
    ...assemblyWords(off, 'stands on its widest piece', ''),
  ].join(' ');
}

function assemblyWords(numbers: readonly number[], where: string, which: string): string[] {
  if (numbers.length === 0) return [];
  const tail = which === '' ? '' : ` ${which}`;
  return numbers.length === 1
    ? [`Number ${numbers[0]} is a finished assembly, put in as a whole: it ${where}${tail}.`]
    : [
        `Numbers ${joinNumbers(numbers)} are finished assemblies, each put in as a whole: each ${where}${tail}.`,
      ];
}

function glueNumbers(canvas: PlanCanvas): GlueNumber[] {
  const { regions } = canvas.plan.relief.map;
  const regionOf = new Map(canvas.plan.pieces.map(({ id, region }) => [id, region]));
  const steps = canvas.plan.glueUp?.steps ?? [];
  const piecesOf = new Map<string, number[]>();
  for (const { item, assembly } of steps) {
    const region = regionOf.get(item);
    // An assembly within this one brings its pieces along.
    const brought = region === undefined ? (piecesOf.get(item) ?? []) : [region];
    piecesOf.set(assembly, [...(piecesOf.get(assembly) ?? []), ...brought]);
  }
  return steps.flatMap(({ item, kind, to }, i): GlueNumber[] => {
    const isAssembly = kind === 'assembly';
    const own = isAssembly ? (piecesOf.get(item) ?? []) : [regionOf.get(item) ?? []].flat();
    if (own.length === 0) return [];
    const others = to.flatMap((id) => regionOf.get(id) ?? []);
    const joint = isAssembly ? jointPlace(canvas, own, others) : null;
    const widest = own.reduce((a, r) => (regions[r].labelRoom > regions[a].labelRoom ? r : a));
    const place =
      joint === null
        ? { at: regions[widest].labelPoint, room: regions[widest].labelRoom }
        : { at: joint, room: 0 };
    const label = { text: String(i + 1), ...place };
    return [{ number: i + 1, label, isAssembly, onJoint: joint !== null }];
  });
}

/** The middle of the longest line between some pieces, by their regions, and others; null: they have none. */
function jointPlace(
  { plan, shapes }: PlanCanvas,
  some: readonly number[],
  others: readonly number[],
): Point | null {
  const facesOf = new Map(plan.pieces.map((piece) => [piece.region, piece.regions]));
  const faces = (list: readonly number[]): ReadonlySet<number> =>
    new Set(list.flatMap((r) => facesOf.get(r) ?? [r]));
  const [inner, outer] = [faces(some), faces(others)];
  const meets = ({ left, right }: { readonly left: number; readonly right: number }): boolean =>
    (inner.has(left) && outer.has(right)) || (inner.has(right) && outer.has(left));
  const longest = plan.relief.map.edges.reduce(
    (best, edge, e, all) => (meets(edge) && (best < 0 || edge.length > all[best].length) ? e : best),
    -1,
  );
  if (longest < 0) return null;
  const xy = shapes.chords(longest);
  const points = Array.from({ length: xy.length / 2 }, (_, i): Point => [xy[2 * i], xy[2 * i + 1]]);
  return pointAlong(points, plan.relief.map.edges[longest].length / 2)?.[0] ?? points[0];
}
