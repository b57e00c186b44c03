import { type Finding, type FindingLevel, visibleText } from '../index.js';

const ORDER: readonly FindingLevel[] = ['error', 'warning', 'note'];

/**
 * Findings as lines for a person, errors first: where, what, what to do. Findings of one rule that ask for the
 * same say so once, at the end.
 */
export function describeFindings(file: string, findings: readonly Finding[]): string {
  const lines: string[] = [];
  let advice: string | undefined;
  const putAdvice = (next: string | undefined): void => {
    if (advice !== undefined && advice !== next) lines.push(`    ${advice}`);
    advice = next;
  };
  for (const finding of sorted(findings)) {
    putAdvice(finding.fix);
    lines.push(describeFinding(file, finding));
  }
  putAdvice(undefined);
  return lines.map((line) => `${visibleText(line)}\n`).join('');
}

/** By level, and within a level the findings of one rule together, in the order in which the rules first come. */
function sorted(findings: readonly Finding[]): Finding[] {
  return ORDER.flatMap((level) => {
    const some = findings.filter((finding) => finding.level === level);
    const rules = [...new Set(some.map((finding) => finding.rule))];
    return rules.flatMap((rule) => some.filter((finding) => finding.rule === rule));
  });
}

function describeFinding(file: string, finding: Finding): string {
  const { source, at, message } = finding;
  const place = source === undefined ? file : `${file}:${source.line}:${source.column}`;
  const unnamed = finding.regions.filter((id) => !new RegExp(`\\b${id}\\b`).test(message));
  const where = [
    ...(at === null ? [] : [`at ${at[0].toFixed(1)}, ${at[1].toFixed(1)} mm`]),
    ...(unnamed.length === 0 ? [] : [listed(unnamed)]),
  ].join(', ');
  return `${place}: ${finding.level}: ${message}${where === '' ? '' : ` (${where})`} [${finding.rule}]`;
}

/** Some ids in full, many cut short. */
function listed(ids: readonly string[]): string {
  const most = 8;
  return ids.length <= most ? ids.join(' ') : `${ids.slice(0, most).join(' ')} and ${ids.length - most} more`;
}

/** `2 errors, 1 warning, 0 notes` */
export function countFindings(findings: readonly Finding[]): string {
  return ORDER.map((level) => {
    const count = findings.filter((finding) => finding.level === level).length;
    return `${count} ${level}${count === 1 ? '' : 's'}`;
  }).join(', ');
}

/** Whether a finding of this level or a graver one is among them. */
export function reaches(findings: readonly Finding[], level: FindingLevel): boolean {
  const graver = ORDER.slice(0, ORDER.indexOf(level) + 1);
  return findings.some((finding) => graver.includes(finding.level));
}
