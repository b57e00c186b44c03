import type { RegionMap } from '../plane/region-map.js';
import { defineRule, type NoOptions, type RuleFinding } from './rule.js';
import { tracedTwice } from './traced-twice.js';
import { edgePlace, round2 } from './words.js';

/** A line that is drawn twice. Page: docs/checks/duplicate-line.md. */
export const duplicateLine = defineRule<'duplicate-line', NoOptions>({
  id: 'duplicate-line',
  group: 'lines',
  level: 'note',
  summary: 'a line is drawn twice',
  model: null,
  defaults: {},
  find: ({ relief: { map } }) => {
    const edgesOf = edgesByShape(map);
    const shapesOf = map.edges.map(({ shapes }) => new Set(shapes));
    const found: RuleFinding[] = [];
    for (const [shape, edges] of edgesOf) {
      const other = shapeOverAll(shape, edges, shapesOf, edgesOf);
      if (other === null) continue;
      const { source } = map.shapes[shape];
      const twin = map.shapes[other].source;
      const length = edges.reduce((sum, edge) => sum + map.edges[edge].length, 0);
      found.push({
        message: `All of ${source.element} (${round2(length)} mm) lies on ${twin.element} of line ${twin.line}; it is drawn twice and cut once.`,
        at: edgePlace(map, edges),
        regions: [],
        source,
        fix: 'Take one of the two out of the drawing.',
      });
    }
    for (const { shape, at, length } of tracedTwice(map)) {
      const { source } = map.shapes[shape];
      found.push({
        message: `${source.element} runs along ${round2(length)} mm of its own line a second time; that is cut once.`,
        at,
        regions: [],
        source,
        fix: 'Take the second run out of the path.',
      });
    }
    return found;
  },
});

function edgesByShape(map: RegionMap): Map<number, number[]> {
  const lists = new Map<number, number[]>();
  map.edges.forEach(({ shapes }, edge) => {
    for (const shape of shapes) {
      const list = lists.get(shape);
      if (list === undefined) lists.set(shape, [edge]);
      else list.push(edge);
    }
  });
  return lists;
}

/** A shape that draws all edges of another; of two equal ones the later in the drawing is the double. */
function shapeOverAll(
  shape: number,
  edges: readonly number[],
  shapesOf: readonly ReadonlySet<number>[],
  edgesOf: ReadonlyMap<number, readonly number[]>,
): number | null {
  for (const other of shapesOf[edges[0]]) {
    if (other === shape || (other > shape && edgesOf.get(other)!.length <= edges.length)) continue;
    if (edges.every((edge) => shapesOf[edge].has(other))) return other;
  }
  return null;
}
