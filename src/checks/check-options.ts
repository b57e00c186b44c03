import type { FindingLevel } from '../finding.js';
import type { Point } from '../geometry/point.js';
import type { RuleGroup } from './rule.js';
import type { OptionsOf, RuleId } from './rules.js';

/** How much a rule's findings matter; off: the rule is not run. */
export type RuleLevel = FindingLevel | 'off';

/** The setting of one rule: its level, why, and its own options. */
export type RuleSetting<Id extends RuleId> = Partial<OptionsOf<Id>> & {
  readonly level?: RuleLevel;
  /** Kept in the report with every finding of the rule. */
  readonly reason?: string;
};

/** Another level for a rule (or for the findings of an earlier stage) in one region. */
export interface RuleException {
  readonly rule: string;
  /** Region id, or a point in the region, mm; a finding without regions is met within `EXCEPTION_REACH` of it. */
  readonly region?: string;
  readonly at?: Point;
  /** off: what is found stays in the report as a note. */
  readonly level: RuleLevel;
  /** Kept in the report. */
  readonly reason: string;
}

/** Which rules run, and how. */
export interface CheckOptions {
  readonly rules?: { readonly [Id in RuleId]?: RuleLevel | RuleSetting<Id> };
  /** Levels of the findings of earlier steps (`STAGE_RULES`), by rule. */
  readonly stages?: Readonly<Record<string, RuleLevel>>;
  readonly exceptions?: readonly RuleException[];
  /** Only rules of these groups, without the findings of earlier stages. Default: all. */
  readonly groups?: readonly RuleGroup[];
}

/** A finding without regions belongs to an exception's point when it is this near, mm. */
export const EXCEPTION_REACH = 2;
