import type { Finding, FindingLevel, SourcePlace } from '../finding.js';
import type { Point } from '../geometry/point.js';

/** One entry before it becomes a finding. */
export interface LogEntry {
  readonly rule: string;
  readonly level: FindingLevel;
  readonly message: string;
  readonly source?: SourcePlace | undefined;
  readonly at?: Point | null;
  readonly fix?: string;
}

/** Collects the findings of one reading, at most `limit` of one rule. */
export class FindingLog {
  readonly #limit: number;
  readonly #findings: Finding[] = [];
  readonly #counts = new Map<string, number>();
  readonly #once = new Set<string>();

  constructor(limit: number) {
    this.#limit = limit;
  }

  add(entry: LogEntry): void {
    const count = (this.#counts.get(entry.rule) ?? 0) + 1;
    this.#counts.set(entry.rule, count);
    if (count > this.#limit) return;
    this.#findings.push({
      rule: entry.rule,
      level: entry.level,
      message: entry.message,
      at: entry.at ?? null,
      regions: [],
      ...(entry.source ? { source: entry.source } : {}),
      ...(entry.fix ? { fix: entry.fix } : {}),
    });
  }

  /** Adds an entry unless one with the same key was added before: elements that `use` shows many times. */
  addOnce(key: string, entry: LogEntry): void {
    if (this.#once.has(key)) return;
    this.#once.add(key);
    this.add(entry);
  }

  /** All findings in the order they were made, and for each rule that ran over the limit how many are missing. */
  findings(): Finding[] {
    const list = [...this.#findings];
    for (const [rule, count] of this.#counts) {
      if (count <= this.#limit) continue;
      list.push({
        rule,
        level: list.find((finding) => finding.rule === rule)?.level ?? 'warning',
        message: `${count - this.#limit} more findings of the same kind are not listed (limit "findings": ${this.#limit}).`,
        at: null,
        regions: [],
      });
    }
    return list;
  }
}
