import type { CutPlan, CutStep, Pass } from '../workshop/cut-plan.js';
import { pieceNames } from './plan-json.js';

/** What regions and pieces are called in a plan for a person. */
export interface PlanNames {
  /** `r12` or `r12 attic window`. */
  region(region: number): string;
  /** What a step is about: pieces by their ids, cutouts by their regions. */
  regions(pass: Pass, step: CutStep): string[];
  /** The pieces that are loose before a setting. */
  loose(pass: Pass): string[];
  /** The pieces that come free with a step, `p3 roof`. */
  pieces(pass: Pass, step: CutStep): string[];
  /** The pieces that regions belong to, and voids by their region. */
  owners(regions: readonly number[]): string[];
  /** A piece or add-on by its id, with its name. */
  piece(id: string): string;
}

/** So many names in one sentence; what is more is counted. */
const MOST_NAMES = 6;

export function planNames(plan: CutPlan): PlanNames {
  const { relief } = plan;
  const freed = pieceNames(plan);
  const nameOfPiece = new Map(plan.pieces.map(({ id, name }) => [id, name]));
  const bodyOf = (r: number): string | null => {
    const { body, role } = relief.regions[r];
    return body === null || role === 'opening' ? null : relief.bodies[body].id;
  };
  const region = (r: number): string => withName(relief.map.regions[r].id, relief.regions[r].name);
  const pieceName = (id: string): string => withName(id, nameOfPiece.get(id) ?? null);
  const owners = (regions: readonly number[]): string[] =>
    shorten([...new Set(regions.map((r) => bodyOf(r) ?? relief.map.regions[r].id))].map(pieceName));
  return {
    region,
    owners,
    piece: pieceName,
    loose: (pass) => freed(pass, { frees: 'piece', regions: pass.loose, sheets: pass.sheets }).map(pieceName),
    pieces: (pass, step) => shorten(freed(pass, step).map(pieceName)),
    regions(pass, step) {
      if (step.frees === 'piece') return shorten(freed(pass, step).map(pieceName));
      if (step.kind === 'vein') return owners(step.edges.slice(-1).map((e) => relief.map.edges[e].left));
      if (step.kind === 'cutout') return shorten(step.regions.map(region));
      const ids = step.regions.map((r) => bodyOf(r)).filter((id) => id !== null);
      return shorten([...new Set(ids)].map(pieceName));
    },
  };
}

function withName(id: string, name: string | null): string {
  return name === null ? id : `${id} ${name}`;
}

function shorten(list: readonly string[]): string[] {
  if (list.length <= MOST_NAMES) return [...list];
  const shown = list.slice(0, MOST_NAMES - 1);
  return [...shown, `${list.length - shown.length} more`];
}
