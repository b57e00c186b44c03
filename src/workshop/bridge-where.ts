/** Sheets of a piece in front of the floor of a recess. */
export interface FrontSheets {
  readonly piece: string;
  /** Ids, from the face. */
  readonly sheets: readonly string[];
}

/** The sheets that a bridge's `where` names, such as `p9 s1+s2`; null where it is none in front of a floor. */
export function frontSheetsOf(where: string): FrontSheets | null {
  const [, piece, sheets] = /^(p\d+) (.+)$/.exec(where) ?? [];
  return piece === undefined ? null : { piece, sheets: sheets.split('+') };
}

/** The `where` of a place that is narrow in both; null unless both are front sheets of one piece. */
export function frontsTogether(one: string, other: string): string | null {
  const [a, b] = [frontSheetsOf(one), frontSheetsOf(other)];
  if (a === null || a.piece !== b?.piece) return null;
  return `${a.piece} ${[...new Set([...a.sheets, ...b.sheets])].join('+')}`;
}
