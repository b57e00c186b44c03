import { addOnNumber } from './add-on-number.js';
import { addOnOverhang } from './add-on-overhang.js';
import { addOnUnevenSeat } from './add-on-uneven-seat.js';
import { boardTooSmall } from './board-too-small.js';
import { cutoutTooDeep } from './cutout-too-deep.js';
import { duplicateLine } from './duplicate-line.js';
import { fallsOut } from './falls-out.js';
import { flushStep } from './flush-step.js';
import { gapClosed } from './gap-closed.js';
import { heightOrder } from './height-order.js';
import { holeNearLine } from './hole-near-line.js';
import { labelOnLine } from './label-on-line.js';
import { labelOutside } from './label-outside.js';
import { lineDoesNothing } from './line-does-nothing.js';
import { narrowSlot } from './narrow-slot.js';
import { noReadableText } from './no-readable-text.js';
import { numberConflict } from './number-conflict.js';
import { numberMissing } from './number-missing.js';
import { numberOutsideStack } from './number-outside-stack.js';
import { numberUnplaced } from './number-unplaced.js';
import { numberUnreadable } from './number-unreadable.js';
import { openLine } from './open-line.js';
import { openingSplitsPiece } from './opening-splits-piece.js';
import { overshoot } from './overshoot.js';
import { recessBetweenPieces } from './recess-between-pieces.js';
import { recessWithoutHost } from './recess-without-host.js';
import type { Rule } from './rule.js';
import { sheetNotOwned } from './sheet-not-owned.js';
import { sliver } from './sliver.js';
import { smallOpening } from './small-opening.js';
import { smallPiece } from './small-piece.js';
import { thinBridge } from './thin-bridge.js';
import { tightTurn } from './tight-turn.js';
import { touchInPoint } from './touch-in-point.js';
import { twoLabels } from './two-labels.js';
import { weakTip } from './weak-tip.js';

const ALL = [
  numberMissing,
  numberUnreadable,
  numberOutsideStack,
  numberConflict,
  numberUnplaced,
  labelOnLine,
  labelOutside,
  twoLabels,
  addOnNumber,
  noReadableText,
  cutoutTooDeep,
  recessWithoutHost,
  recessBetweenPieces,
  openingSplitsPiece,
  fallsOut,
  touchInPoint,
  heightOrder,
  flushStep,
  addOnUnevenSeat,
  addOnOverhang,
  sheetNotOwned,
  boardTooSmall,
  openLine,
  gapClosed,
  overshoot,
  lineDoesNothing,
  sliver,
  duplicateLine,
  thinBridge,
  weakTip,
  smallPiece,
  smallOpening,
  narrowSlot,
  tightTurn,
  holeNearLine,
] as const;

type Known = (typeof ALL)[number];

/** The id of a rule of `checkRelief`. */
export type RuleId = Known['id'];

/** The options of a rule. */
export type OptionsOf<Id extends RuleId> = Extract<Known, { id: Id }>['defaults'];

/** Every rule of `checkRelief`, in the order in which a person would mend: numbers, build, lines, strength. */
export const RULES: readonly Rule<RuleId>[] = ALL as unknown as readonly Rule<RuleId>[];
