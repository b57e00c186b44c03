import type { Finding, FindingLevel } from '../index.js';

const ORDER: readonly FindingLevel[] = ['error', 'warning', 'note'];

/** Findings as lines for a person, errors first: where, what, what to do. */
export function describeFindings(file: string, findings: readonly Finding[]): string {
  const sorted = ORDER.flatMap((level) => findings.filter((finding) => finding.level === level));
  return sorted.map((finding) => `${describeFinding(file, finding)}\n`).join('');
}

function describeFinding(file: string, finding: Finding): string {
  const { source, at, regions } = finding;
  const place = source === undefined ? file : `${file}:${source.line}:${source.column}`;
  const where = [
    ...(at === null ? [] : [`at ${at[0].toFixed(1)}, ${at[1].toFixed(1)} mm`]),
    ...(regions.length === 0 ? [] : [listed(regions)]),
  ].join(', ');
  const line = `${place}: ${finding.level}: ${finding.message}${where === '' ? '' : ` (${where})`} [${finding.rule}]`;
  return finding.fix === undefined ? line : `${line}\n    ${finding.fix}`;
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
