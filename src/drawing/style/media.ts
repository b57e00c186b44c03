/** Media features that are known for a page on paper; every other one counts as not there. */
const FEATURES =
  /^\(\s*(?:prefers-color-scheme\s*:\s*light|color|grid\s*:\s*0|prefers-reduced-motion(?:\s*:\s*reduce)?)\s*\)$/;

/**
 * Whether a media query list asks for `medium` (Media Queries 4, types and `and`, `not`, `only`). Sizes and
 * other features of a screen never match.
 */
export function mediaMatches(list: string, medium: 'print' | 'screen'): boolean {
  const queries = list.toLowerCase().replace(/\s+/g, ' ').trim();
  if (queries === '') return true;
  return queries.split(',').some((query) => queryMatches(query.trim(), medium));
}

function queryMatches(query: string, medium: string): boolean {
  const parts = query.split(' and ');
  const head = /^(not|only)?\s*([a-z-]+)$/.exec(parts[0]);
  if (head === null) return parts.every((part) => FEATURES.test(part));
  const type = head[2] === 'all' || head[2] === medium;
  const holds = type && parts.slice(1).every((part) => FEATURES.test(part));
  return head[1] === 'not' ? !holds : holds;
}
