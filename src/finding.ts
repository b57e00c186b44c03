import type { Point } from './geometry/point.js';

/** How much a finding matters: an error stops the job, a warning wants a look, a note is for the record. */
export type FindingLevel = 'error' | 'warning' | 'note';

/** Where in the file something came from; lines and columns count from 1. */
export interface SourcePlace {
  readonly line: number;
  readonly column: number;
  /** Element name with its id where it has one, for example `path#roof`. */
  readonly element: string;
}

/** One thing to know about a drawing, a relief or a plan: the one shape for all stages. */
export interface Finding {
  /** Stable id of the rule in kebab-case; docs/checks has a page for each rule of `checkRelief`. */
  readonly rule: string;
  readonly level: FindingLevel;
  /** What is wrong, in one sentence, with the measured values. */
  readonly message: string;
  /** Where in the drawing, mm; null where there is no place (a whole file, a stack). */
  readonly at: Point | null;
  /** Ids of the regions concerned. */
  readonly regions: readonly string[];
  readonly source?: SourcePlace;
  /** What to do, in one sentence. */
  readonly fix?: string;
  /** The value found and the value asked for, with the unit, where the rule compares two numbers. */
  readonly measured?: { readonly value: number; readonly needed: number; readonly unit: string };
  /** How the two values were worked out, in one sentence. */
  readonly model?: string;
  /** Why the level differs from the rule's own: the reason given with an exception. */
  readonly reason?: string;
}
