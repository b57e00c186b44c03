import type { Finding } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import type { NeededWidthOptions } from './needed-width.js';

/** The person's machine and tools; lengths in mm. */
export interface Workshop {
  /** Blade width (front to back) and thickness (the kerf). */
  readonly blade: { readonly name: string; readonly width: number; readonly thickness: number };
  /** Diameters of the bits at hand, ascending. */
  readonly bits: readonly { readonly name: string; readonly diameter: number }[];
  /** Largest height that the saw takes. */
  readonly maxHeight: number;
  /** Clearance between bit and cut line for a drill start in waste. */
  readonly drillMargin: number;
  /** Feed in mm per minute at 1 mm of height; feed falls as 1 / height up to `easyHeight`. */
  readonly feed: number;
  /** Minutes for one threading of the blade. */
  readonly threadMinutes: number;
  /** A drilled hole is at least this much wider than the diagonal of the blade. */
  readonly bladeClearance: number;
  /** Minutes for one hole. */
  readonly drillMinutes: number;
  /** Up to this height the blade clears its dust; above it the feed falls with the square of the height. */
  readonly easyHeight: number;
  /** Minutes for one corner to turn. */
  readonly cornerMinutes: number;
  /** Minutes for lifting one sheet off or putting it back. */
  readonly moveMinutes: number;
  /** Minutes for holding the sheets together, sticking on the drawing and squaring the saw: once a job. */
  readonly setupMinutes: number;
  /** A known job that sets the pace; null: the defaults, and a wider range. */
  readonly knownJob: KnownJob | null;
  /** The side of the board that is held or nearest to the clamp: cuts far from it come late. */
  readonly clampSide: 'top' | 'right' | 'bottom' | 'left';
  /** How wide bridges must be; what is absent takes `NEEDED_WIDTH_DEFAULTS`. */
  readonly bridges?: NeededWidthOptions;
}

/** One job that the person has done, by which the times are calibrated. */
export interface KnownJob {
  /** Length sawn, mm. */
  readonly length: number;
  /** Height of the stack, mm. */
  readonly height: number;
  /** Minutes at the saw, without set-up. */
  readonly minutes: number;
  /** Default 0. */
  readonly threadings?: number;
  /** Default 0. */
  readonly corners?: number;
}

/** How a cut begins. */
export interface CutStart {
  /**
   * edge: in from the edge of the stock or block; line: along a line sawn later; open: through an open place, or on
   * from where the blade is; drill: through a hole.
   */
  readonly kind: 'edge' | 'line' | 'open' | 'drill';
  readonly at: Point;
  /** Bit diameter, mm; null unless drilled. */
  readonly diameter: number | null;
  /** Name of the bit, for example `#56`. */
  readonly bit?: string;
  /** Drilled: into waste, or on the line where both sides are kept. */
  readonly where?: 'waste' | 'line';
  /** Drilled in waste: from the rim of the hole to the nearest line, mm. */
  readonly clearance?: number;
  /** Drilled in waste: region index of the waste. */
  readonly region?: number;
  /** Where the blade comes onto the line. Absent: at `at`. */
  readonly begin?: Point;
  /**
   * Not drilled: what the blade comes through to `at`. board: the waste around the drawing; gap: a place that is
   * open by now; waste: waste that is still there, or comes out with this step; kerf: a line sawn before.
   */
  readonly by?: 'board' | 'gap' | 'waste' | 'kerf';
  /** The blade has to be threaded for this step; false: it is in the kerf already, or comes in from the edge. */
  readonly threaded: boolean;
  /** The blade is in no kerf of the block before this step, and comes in from outside. Absent: it is in one, or threaded. */
  readonly outside?: true;
  /** The blade had to be unclamped and taken out of the work before it could come in from outside. Absent: it had not. */
  readonly released?: true;
}

/** How the blade comes through the waste of the board to a line. */
export interface WayIn {
  /** Which of the runs of the step it leads to, 0: the first. */
  readonly run: number;
  /** From the edge of the board, or from what is open already, to the start; mm. */
  readonly points: readonly Point[];
  /** What it begins at: the edge of the board, another way in, or a kerf. open: it is sawn already, all of it. */
  readonly from: 'edge' | 'way' | 'kerf' | 'open';
  /** What is sawn anew of it, mm; it is part of the length of the step. */
  readonly length: number;
  /** Into how many parts the waste of the board is cut by then, in each of the sheets of the step. */
  readonly parts: readonly number[];
}

/** A part of the waste of the board that nothing holds any more. */
export interface LooseWaste {
  /** Ids of the sheets in which it comes off. */
  readonly sheets: readonly string[];
  /** Its border on the least board, chords of the lines: an outline, and loops around what lies in it; mm. */
  readonly loops: readonly (readonly Point[])[];
  /** mm², on the least board. */
  readonly area: number;
  /** Where it lies, as seen from the front. */
  readonly place: WastePlace;
}

/** Picture and waste that hang together, apart from the rest of the board but for tape across the ways. */
export interface BoardLump {
  /** Region indices of the picture in it, ascending. */
  readonly regions: readonly number[];
  /** Where its waste lies, as seen from the front. */
  readonly place: WastePlace;
}

export type WastePlace =
  | 'top left'
  | 'top'
  | 'top right'
  | 'left'
  | 'all round'
  | 'right'
  | 'bottom left'
  | 'bottom'
  | 'bottom right';

/**
 * What comes free with a step. block: standing stock that is sawn on later, as a block of its own;
 * nothing: a kerf, or a line that another step completes.
 */
export type Freed = 'piece' | 'block' | 'waste' | 'nothing';

/** Waste of a recess whose last hold a step saws away. */
export interface FallenWaste {
  /** Region indices. */
  readonly regions: readonly number[];
  /** Ids of the sheets that it falls out of. */
  readonly sheets: readonly string[];
}

/** One thing to saw without a change of the stack. */
export interface CutStep {
  readonly kind: 'cutout' | 'outline' | 'vein';
  /** Region indices freed or opened by this step. */
  readonly regions: readonly number[];
  /** Sheet ids that the blade goes through, front to back. */
  readonly sheets: readonly string[];
  /** Map edges sawn, in order. */
  readonly edges: readonly number[];
  /** Whether each edge is sawn from its `from` to its `to` node; same index as `edges`. */
  readonly forward: readonly boolean[];
  /**
   * The cut begins at this joint between the curves of its first edge, as sawn, and comes back to it round a
   * closed line; 0: at the end of the edge.
   */
  readonly joint: number;
  /** How many of the first edges only lead in to the line, along lines that a later step needs anyway. */
  readonly leadIn: number;
  readonly frees: Freed;
  /** Waste of recesses that falls out beside it, of some of the sheets only. Absent: none. */
  readonly fallsOut?: readonly FallenWaste[];
  /** Stock that comes apart from the rest with it and is sawn on: the region indices of each lump. Absent: none. */
  readonly comesLoose?: readonly (readonly number[])[];
  readonly start: CutStart;
  /** The ways through the waste of the board to the start, and to runs that begin elsewhere. Absent: none. */
  readonly waysIn?: readonly WayIn[];
  /** Parts of the waste of the board that come off with it. Absent: none. */
  readonly wasteOff?: readonly LooseWaste[];
  /** What of the board, with picture in it, comes apart from the rest with it: all but the largest. Absent: none. */
  readonly boardApart?: readonly BoardLump[];
  /** How many parts of the waste of the board still hold the picture in the sheets of the step. Absent: as before. */
  readonly heldBy?: number;
  /**
   * The blade stands in the work after this step and can get nowhere else without being unclamped and taken out.
   * Absent: the next step goes on from it, or it comes out by the edge.
   */
  readonly captive?: true;
  /** Turns sharper than `SHARP_TURN` on the way. */
  readonly corners: number;
  /** mm, with what is sawn of ways in. */
  readonly length: number;
  readonly minutes: number;
}

/** A sheet taken off or put back before the steps of a pass. */
export interface SheetMove {
  readonly sheet: string;
  readonly action: 'lift' | 'put-back';
}

/** One setting of the stack. */
export interface Pass {
  readonly phase: 'recesses' | 'pass' | 'add-ons';
  /** The depth number of a pass, the depth of a recess, 0 for add-ons. */
  readonly number: number;
  /** Sheet ids together in this setting, front to back. */
  readonly sheets: readonly string[];
  /** mm */
  readonly height: number;
  readonly moves: readonly SheetMove[];
  readonly steps: readonly CutStep[];
  /**
   * Regions of pieces that are loose without a cut of this setting: all lines around them were sawn before,
   * and only the sheets behind had to come off.
   */
  readonly loose: readonly number[];
  /** What stands on the table before the first step. */
  readonly blocks: readonly Block[];
  /** What of the board, with picture in it, is apart from the rest before the first step. Absent: none. */
  readonly boardApart?: readonly BoardLump[];
  /** Minutes for moves, holes and steps. */
  readonly minutes: number;
}

/** Stock that is still held together. */
export interface Block {
  /** Region indices, ascending. */
  readonly regions: readonly number[];
  /** The board around the drawing belongs to it. */
  readonly board: boolean;
  /** mm², within the drawing. */
  readonly area: number;
}

/** A place where material between two cut lines is narrower than the stack at hand allows. */
export interface Bridge {
  readonly at: Point;
  readonly from: Point;
  readonly to: Point;
  /** mm */
  readonly width: number;
  readonly needed: number;
  /**
   * What is narrow: a piece id (`p3`); `p3 s1` or `p3 s1+s2`, the sheets of a piece in front of the floor of a recess;
   * sheet ids (`s1`, `s1+s2`) alone; or `pass 2` for the standing stock after it.
   */
  readonly where: string;
  /** Region indices whose material it is. */
  readonly regions: readonly number[];
  /** What breaks with it: a part comes off, a part hangs by others, or a ring opens. */
  readonly effect: 'parts' | 'hangs' | 'opens';
  /** How far it stays narrower than needed, along its middle, mm. */
  readonly length: number;
  /**
   * The smaller part that comes off when it breaks, for `parts`: its area, mm², and how far its centre of gravity lies
   * from the bridge, mm.
   */
  readonly side: { readonly area: number; readonly lever: number } | null;
  /**
   * Angle between the way it runs and the grain of the sheet that asks for most, degrees: 0 along the grain, 90 across;
   * null where the grain is not known or counts for nothing.
   */
  readonly grainAngle: number | null;
}

/** A piece as it leaves the saw. */
export interface PlanPiece {
  readonly id: string;
  readonly region: number;
  /** All region indices of its face: the piece's own, its recesses, what lies under add-ons. */
  readonly regions: readonly number[];
  readonly name: string | null;
  /** Sheet ids from the face. */
  readonly sheets: readonly string[];
  /** mm */
  readonly thickness: number;
  /** Area of the face, openings taken off, mm². */
  readonly area: number;
  /** Width and height of its outline, mm. */
  readonly size: readonly [width: number, height: number];
  /** By the densities of shared/tables/woods.ts; null where a material is not in the table. */
  readonly grams: number | null;
  /** What its face shows, so what is finished in one go. */
  readonly finish: string;
  /** Pieces that it is glued to: common border in mm, contact in mm². */
  readonly gluedTo: readonly { readonly piece: string; readonly length: number; readonly area: number }[];
  /**
   * Its sheets in the order in which they come off the saw, where that is another one: the sheets have to be
   * taken apart and put together anew. Null: they stay as they are.
   */
  readonly sawnOrder: readonly string[] | null;
  /** Sheets of its shape that come off the saw with it and are not its own, front to back: they are left out. Absent: none. */
  readonly spare?: readonly string[];
}

/** One thing to put in place at the glue-up. */
export interface GlueStep {
  /** Name of the assembly that is being put together. */
  readonly assembly: string;
  /** Id of a piece, or name of an assembly that is finished by now. */
  readonly item: string;
  readonly kind: 'piece' | 'assembly';
  /** Ids of the pieces that are there already and that it is glued to. */
  readonly to: readonly string[];
  /** mm² of contact with them. */
  readonly contact: number;
}

/** How the pieces are put together, backs flush. */
export interface GlueUp {
  readonly steps: readonly GlueStep[];
  /** Glued on at the very end: ids of add-ons, and the regions that they sit on. */
  readonly addOns: readonly { readonly piece: string; readonly seats: readonly number[] }[];
  /** A backing board is proposed for these pieces: they have less than `needed` mm² of contact. Null: not needed. */
  readonly backing: { readonly pieces: readonly string[]; readonly needed: number } | null;
}

/** What is left of a sheet after it is lifted off. */
export interface Offcut {
  readonly sheet: string;
  /** Number of the pass after which it comes off. */
  readonly afterPass: number;
  /** mm², within the frame of the drawing. */
  readonly area: number;
  /** Region indices whose material stays in it. */
  readonly regions: readonly number[];
  /** Ids of the pieces that have a part of this sheet. */
  readonly pieces: readonly string[];
  /** Ids of pieces whose shape came out of it too, without being needed. */
  readonly spareParts: readonly string[];
  /** Ids of pieces with a sheet of this kind whose shape could still be sawn out of it whole: spare sheets for them. */
  readonly spareShapes: readonly string[];
}

/** One piece of advice with its reason. */
export interface Advice {
  readonly about: 'blade';
  readonly text: string;
  readonly reason: string;
}

/** The job, in order. Plain data. */
export interface CutPlan {
  readonly relief: Relief;
  readonly workshop: Workshop;
  readonly passes: readonly Pass[];
  readonly bridges: readonly Bridge[];
  readonly pieces: readonly PlanPiece[];
  readonly offcuts: readonly Offcut[];
  /** The least size of every board, with room to hold it by where the outline is sawn; mm. */
  readonly board: { readonly width: number; readonly height: number };
  /** Null for continuous sheets, which are stacked and not pieced together. */
  readonly glueUp: GlueUp | null;
  readonly advice: readonly Advice[];
  readonly totals: {
    readonly pieces: number;
    /** mm, ways in included. */
    readonly cutLength: number;
    /** mm of ways in through the waste of the board. */
    readonly wayLength: number;
    readonly drillStarts: number;
    readonly threadings: number;
    /** Times that the blade is unclamped and taken out of the work, not to be threaded, but to come in from outside. */
    readonly releases: number;
    readonly sheetMoves: number;
    readonly minutes: number;
    /** Least and most minutes, see `timeRange`. */
    readonly minutesRange: readonly [least: number, most: number];
  };
  readonly cautions: readonly string[];
  readonly findings: readonly Finding[];
}
