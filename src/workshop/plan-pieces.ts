import { findMaterial } from '../../shared/tables/woods.js';
import { EMPTY_BOUNDS, joinBounds } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import type { Sheet } from '../relief/stack.js';
import { sheetOf, stackHeight } from '../relief/stack-height.js';
import type { PlanPiece } from './cut-plan.js';
import type { LevelPart } from './level-job.js';
import { type Contact, pieceContacts } from './piece-contacts.js';

/** The pieces of a relief of pieces, in the order of the bodies. */
export function bodyPieces(relief: Relief): PlanPiece[] {
  const contacts = contactsByBody(relief);
  return relief.bodies.map(({ id, region, order, thickness, recesses, covered }, b): PlanPiece => {
    const regions = [region, ...recesses, ...covered];
    return {
      id,
      region,
      regions,
      name: relief.regions[region].name,
      sheets: order,
      thickness,
      ...extentOf(relief, regions),
      grams: weigh(relief, order, (j) => regions.filter((r) => relief.regions[r].down <= j)),
      finish: finishOf(sheetOf(relief.stack, order[0])),
      gluedTo: contacts[b].map(({ a, b: other, length, area }) => ({
        piece: relief.bodies[a === b ? other : a].id,
        length,
        area,
      })),
      sawnOrder: sawnOrder(relief, order),
    };
  });
}

/** The parts of the sheets of a continuous relief: `s2.1`, `s2.2`, … by sheet. */
export function levelPieces(relief: Relief, parts: readonly LevelPart[]): PlanPiece[] {
  const counts = new Map<string, number>();
  return parts.map(({ sheet, regions }): PlanPiece => {
    const number = (counts.get(sheet) ?? 0) + 1;
    counts.set(sheet, number);
    return {
      id: `${sheet}.${number}`,
      region: regions[0],
      regions,
      name: null,
      sheets: [sheet],
      thickness: stackHeight(relief.stack, [sheet]),
      ...extentOf(relief, regions),
      grams: weigh(relief, [sheet], () => regions),
      finish: finishOf(sheetOf(relief.stack, sheet)),
      gluedTo: [],
      sawnOrder: null,
    };
  });
}

function contactsByBody(relief: Relief): Contact[][] {
  const lists: Contact[][] = relief.bodies.map(() => []);
  for (const contact of pieceContacts(relief)) {
    lists[contact.a].push(contact);
    lists[contact.b].push(contact);
  }
  return lists;
}

function extentOf({ map }: Relief, regions: readonly number[]): Pick<PlanPiece, 'area' | 'size'> {
  const own = regions.map((r) => map.regions[r]);
  const [x0, y0, x1, y1] = own.reduce((box, region) => joinBounds(box, region.bounds), EMPTY_BOUNDS);
  return { area: own.reduce((sum, region) => sum + region.area, 0), size: [x1 - x0, y1 - y0] };
}

/** A gram a cubic millimetre, for a specific gravity of 1. */
const GRAMS_PER_MM3 = 1e-3;

/** Grams of a body; `inSheet` says which regions stay in its j-th sheet from the face. */
function weigh(
  { stack, map }: Relief,
  order: readonly string[],
  inSheet: (j: number) => readonly number[],
): number | null {
  let grams = 0;
  for (const [j, id] of order.entries()) {
    const { material, thickness } = sheetOf(stack, id);
    const found = findMaterial(material);
    if (found === null) return null;
    const gravity = found.kind === 'wood' ? found.wood.gravity : found.board.gravity;
    const area = inSheet(j).reduce((sum, r) => sum + map.regions[r].area, 0);
    grams += area * thickness * gravity * GRAMS_PER_MM3;
  }
  return grams;
}

function finishOf(sheet: Sheet): string {
  return sheet.face ?? sheet.material;
}

/** The sheets as the stack has them, where the piece wants them otherwise. */
function sawnOrder(relief: Relief, order: readonly string[]): readonly string[] | null {
  const place = new Map(relief.stack.sheets.map((sheet, j) => [sheet.id, j]));
  const sawn = [...order].sort((a, b) => place.get(a)! - place.get(b)!);
  return sawn.every((id, j) => id === order[j]) ? null : sawn;
}
