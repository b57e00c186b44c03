import { demandFindings, demandTexts } from '../arguments.js';
import type { Finding, FindingLevel } from '../finding.js';
import { visibleTexts } from './visible-text.js';

/** The findings of one file; `regions` is how many it has. */
export interface CheckedFile {
  readonly file: string;
  readonly findings: readonly Finding[];
  readonly regions: number;
}

/** What `plystep check --format json` prints. */
export interface CheckReport {
  readonly schemaVersion: '1.0';
  readonly files: readonly CheckedFile[];
  readonly summary: {
    readonly files: number;
    readonly errors: number;
    readonly warnings: number;
    readonly notes: number;
  };
}

/** The report of any number of checked files, in the order given. */
export function checkReport(files: readonly CheckedFile[]): CheckReport {
  demandTexts(files, ['file'], 'checkReport', 'files');
  files.forEach(({ findings }, i) => {
    demandFindings(findings, 'checkReport', `files[${i}].findings`);
  });
  const all = files.flatMap((file) => file.findings);
  return visibleTexts({
    schemaVersion: '1.0',
    files,
    summary: {
      files: files.length,
      errors: countLevel(all, 'error'),
      warnings: countLevel(all, 'warning'),
      notes: countLevel(all, 'note'),
    },
  });
}

/** How many findings have the level. */
export function countLevel(findings: readonly Finding[], level: FindingLevel): number {
  return findings.filter((finding) => finding.level === level).length;
}
