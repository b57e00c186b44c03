import type { FindingLevel, SourcePlace } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { Relief } from '../relief/relief.js';
import type { CutPlan, Workshop } from '../workshop/cut-plan.js';

/** What a rule looks at. */
export interface CheckInput {
  readonly relief: Relief;
  /** null where none was made; rules that need one then find nothing. */
  readonly plan: CutPlan | null;
  /** The plan's workshop, or the default one. */
  readonly workshop: Workshop;
}

/** What a rule finds: a `Finding` before its rule, level and region ids are filled in. */
export interface RuleFinding {
  readonly message: string;
  readonly at: Point | null;
  /** Region indices. */
  readonly regions: readonly number[];
  readonly fix: string;
  readonly source?: SourcePlace;
  readonly measured?: { readonly value: number; readonly needed: number; readonly unit: string };
  /** Only where it differs from the rule's own level. */
  readonly level?: FindingLevel;
}

/**
 * A part of a rule's work that depends on little, for example on one body: as long as the key is the same, on
 * one map, so is what it finds.
 */
export interface RuleUnit {
  readonly key: string;
  readonly find: () => RuleFinding[];
}

/** The part of the job that a rule speaks of. */
export type RuleGroup = 'numbers' | 'build' | 'lines' | 'strength';

/** One rule: a pure function on a relief and its plan. `Options` are numbers and flags with documented defaults. */
export interface Rule<Id extends string = string, Options extends object = object> {
  readonly id: Id;
  readonly group: RuleGroup;
  readonly level: FindingLevel;
  /** What it reports, in one line. */
  readonly summary: string;
  /** How the measured value and the needed one come about; null where nothing is measured. */
  readonly model: string | null;
  readonly defaults: Required<Options>;
  readonly find: (input: CheckInput, options: Required<Options>) => RuleFinding[];
  /**
   * For costly rules: the same work in units, so that after a change only some of it is done again; null where
   * it does not come in units.
   */
  readonly units?: (input: CheckInput, options: Required<Options>) => RuleUnit[] | null;
}

/** A rule without options. */
export type NoOptions = Record<never, never>;

/** Defines a rule with its id and options kept in its type. */
export function defineRule<Id extends string, Options extends object>(
  rule: Rule<Id, Options>,
): Rule<Id, Options> {
  return rule;
}
