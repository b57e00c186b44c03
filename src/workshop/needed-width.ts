import { findMaterial, WOODS } from '../../shared/tables/woods.js';
import { demandOptions, demandText, demandTypes, refuseArgument, shown } from '../arguments.js';

/** What decides how wide a bridge must be drawn. Lengths in mm. */
export interface BridgeCase {
  /** The sheet's material, free text. */
  readonly material: string;
  /** Thickness of one sheet of it; where several sheets lie together, the thickest. */
  readonly thickness: number;
  /** Height of the stack at the moment of sawing. */
  readonly heightSawn: number;
  /** Thickness of the blade. */
  readonly kerf: number;
  /** How many of the bridge's two sides are sawn lines (the other is an edge of the board). Default 2. */
  readonly sawnSides?: 0 | 1 | 2;
  /**
   * Angle between the grain and the way the bridge runs (square to its narrowest chord), degrees, 0 to 90;
   * null or absent: not known, or a board without grain.
   */
  readonly grainAngle?: number | null;
}

/** The numbers of the model. Each default is common practice, no source, unless said. */
export interface NeededWidthOptions {
  /** Width by thickness that a bridge of the reference wood needs when the grain is not known. Default 1. */
  readonly perThickness?: number;
  /** Never less than this much wood after sawing, mm. Default 1. */
  readonly least?: number;
  /** The part of the kerf that falls on the bridge at each sawn side. Default 0.5: the blade follows the line. */
  readonly kerfShare?: number;
  /** How far the blade leans aside, mm for each mm of height, at each sawn side. Default 0.02. */
  readonly drift?: number;
  /** Tension across the grain by strength along it, where the table has no value. Default 0.045 (Wood Handbook 5-3b, mean). */
  readonly acrossByAlong?: number;
}

export const NEEDED_WIDTH_DEFAULTS: Required<NeededWidthOptions> = {
  perThickness: 1,
  least: 1,
  kerfShare: 0.5,
  drift: 0.02,
  acrossByAlong: 0.045,
};

/** A function that says how wide a bridge must be drawn, mm; a caller may put an own one in its place. */
export type NeededWidth = (bridge: BridgeCase) => number;

/** The wood that `perThickness` speaks of: a middling one that is often used. */
const REFERENCE_WOOD = 'poplar';

/** Grain direction assumed where none is known: half way between along and across. */
const UNKNOWN_GRAIN = 45;

/**
 * How wide a bridge must be drawn, mm.
 *
 * A bridge breaks when it is bent in the plane of its sheet. A strip of width w and thickness t of a material
 * of strength s carries a moment of s·t·w²/6, so the same handling asks for a width in proportion to 1/√s.
 * The scale is the trade's rule that a bridge is not thinner than its sheet (common practice, no source),
 * taken to hold for a middling wood whose grain runs anyhow:
 *
 *   wood   = max(least, perThickness · thickness · √(s₀ / s))
 *   needed = wood + sides · (kerfShare · kerf + drift · heightSawn)
 *
 * s follows Hankinson's formula between the strength along the grain and the tension across it (Wood
 * Handbook, chapter 5, exponent 2), so short grain asks for more and long grain for less; a board has one s
 * for all directions. A higher stack lets the blade lean further, so the same railing passes in one sheet and
 * fails in a stack of four.
 */
export function neededWidth(bridge: BridgeCase, options: NeededWidthOptions = {}): number {
  demandCase(bridge);
  demandOptions(options, 'neededWidth', Object.keys(NEEDED_WIDTH_DEFAULTS));
  demandTypes(options, NEEDED_WIDTH_DEFAULTS, 'neededWidth');
  const o = { ...NEEDED_WIDTH_DEFAULTS, ...options };
  const reference = strengthAt(REFERENCE_WOOD, UNKNOWN_GRAIN, o.acrossByAlong);
  const strength = strengthAt(bridge.material, bridge.grainAngle ?? UNKNOWN_GRAIN, o.acrossByAlong);
  const wood = Math.max(o.least, o.perThickness * bridge.thickness * Math.sqrt(reference / strength));
  const sides = bridge.sawnSides ?? 2;
  return wood + sides * (o.kerfShare * bridge.kerf + o.drift * bridge.heightSawn);
}

function demandCase(bridge: BridgeCase): void {
  demandOptions(bridge, 'neededWidth', null, 'bridge');
  demandText(bridge.material, 'neededWidth', 'material');
  for (const name of ['thickness', 'heightSawn', 'kerf'] as const) {
    if (!Number.isFinite(bridge[name])) {
      refuseArgument('neededWidth', `${name} is ${shown(bridge[name])}; it must be a number of mm`);
    }
  }
}

/**
 * Strength of a material against bending in its plane, psi, for a strip whose grain lies at `angle` degrees
 * to it. A material that the table does not know counts as the reference wood.
 */
export function strengthAt(material: string, angle: number, acrossByAlong: number): number {
  const found = findMaterial(material);
  if (found?.kind === 'board') return found.board.rupture;
  const wood = found?.wood ?? WOODS.find((w) => w.name === REFERENCE_WOOD)!;
  const along = wood.rupture;
  const across = wood.tensionAcross ?? along * acrossByAlong;
  const sin = Math.sin((angle * Math.PI) / 180);
  const cos = Math.cos((angle * Math.PI) / 180);
  return (along * across) / (along * sin * sin + across * cos * cos);
}
