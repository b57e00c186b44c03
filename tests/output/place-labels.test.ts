import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Bounds } from '../../src/geometry/point.js';
import { segmentField, segmentsInBox, wayIsFree } from '../../src/geometry/segment-field.js';
import { BoxGrid } from '../../src/output/box-grid.js';
import type { LabelRequest } from '../../src/output/label-request.js';
import { placeLabels } from '../../src/output/place-labels.js';

const SIZES = { largest: 4, smallest: 1, smallestId: 0.8, callout: 1.2, calloutId: 1, clearance: 0.2 };
const AREA: Bounds = [-10, -10, 110, 110];

/** The four sides of boxes as segments. */
const sides = (...boxes: Bounds[]) =>
  segmentField(
    Float64Array.from(boxes.flatMap(([a, b, c, d]) => [a, b, c, b, c, b, c, d, c, d, a, d, a, d, a, b])),
  );

const place = (requests: LabelRequest[], field: ReturnType<typeof sides>, taken: Bounds[] = []) =>
  placeLabels(requests, { lines: field, borders: field, taken, area: AREA }, SIZES);

const meets = (a: Bounds, b: Bounds): boolean => a[0] < b[2] && b[0] < a[2] && a[1] < b[3] && b[1] < a[3];

it('stacks number and id in a roomy region, as large as allowed', () => {
  const [label] = place([{ number: '3', id: 'r1', at: [50, 50], room: 20 }], sides([30, 30, 70, 70]));
  expect(label).toMatchObject({ form: 'stacked', size: 4, at: [50, 50] });
});

it('sets them side by side in a low region, and beside it where nothing fits', () => {
  const low = sides([30, 48.8, 70, 51.2]);
  expect(place([{ number: '3', id: 'r1', at: [50, 50], room: 1.2 }], low)[0].form).toBe('line');
  const slit = sides([30, 49.8, 70, 50.2]);
  const [label] = place([{ number: '3', id: 'r1', at: [50, 50], room: 0.2 }], slit);
  expect(label.form).toBe('callout');
  expect(segmentsInBox(slit, label.box, 1)).toBe(0);
});

it('moves within the region before it leaves it, and never across a border', () => {
  const field = sides([30, 30, 70, 70]);
  const [label] = place([{ number: '3', id: 'r1', at: [50, 50], room: 10 }], field, [[48, 48, 52, 52]]);
  expect(label.form).not.toBe('callout');
  expect(meets(label.box, [48, 48, 52, 52])).toBe(false);
  expect(wayIsFree(field, [50, 50], label.at)).toBe(true);
});

it('puts no label on another one, and labels in regions on no line', () => {
  const cells = fc.array(fc.tuple(fc.nat(9), fc.nat(9), fc.integer({ min: 1, max: 9 })), {
    minLength: 1,
    maxLength: 40,
  });
  fc.assert(
    fc.property(cells, (list) => {
      const boxes = new Map(
        list.map(([x, y, s]): [string, Bounds] => [`${x},${y}`, [x * 10, y * 10, x * 10 + s, y * 10 + s]]),
      );
      const requests = [...boxes.values()].map(
        ([a, b, c], i): LabelRequest => ({
          number: '2',
          id: `r${i}`,
          at: [(a + c) / 2, b + (c - a) / 2],
          room: (c - a) / 2,
        }),
      );
      const field = sides(...boxes.values());
      const labels = place(requests, field);
      labels.forEach((label, i) => {
        if (label.form !== 'callout') expect(segmentsInBox(field, label.box, 1)).toBe(0);
        for (const other of labels.slice(i + 1)) expect(meets(label.box, other.box)).toBe(false);
      });
      expect(place(requests, field)).toEqual(labels);
    }),
    { numRuns: 60 },
  );
});

it('finds what a plain search finds', () => {
  const box = fc
    .tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 }), fc.nat(30), fc.nat(30))
    .map(([x, y, w, h]): Bounds => [x, y, x + w + 1, y + h + 1]);
  fc.assert(
    fc.property(fc.array(box), box, (boxes, asked) => {
      const grid = new BoxGrid<number>(7);
      for (const [i, each] of boxes.entries()) grid.add(i, each);
      for (let i = 0; i < boxes.length; i += 3) grid.remove(i);
      const expected = boxes.flatMap((each, i) => (i % 3 !== 0 && meets(each, asked) ? [i] : []));
      const found: number[] = [];
      grid.visit(asked, (item) => found.push(item) > 0);
      expect(found.sort((a, b) => a - b)).toEqual(expected);
      expect(grid.meets(asked)).toBe(expected.length > 0);
    }),
  );
});

/** Small squares in rows, each too small for a label; the work that placing them all takes is counted. */
function crowd(side: number, part: number): { visits: number; labels: ReturnType<typeof place> } {
  const requests = Array.from({ length: side * side }, (_, i): LabelRequest => {
    const at: [number, number] = [
      ((i % side) + 0.5) * (100 / side),
      (Math.floor(i / side) + 0.5) * (100 / side),
    ];
    return { number: null, id: `r${i}`, at, room: part / side };
  });
  const lines = requests.flatMap(({ at: [x, y], room: r }) => [
    ...[x - r, y - r, x + r, y - r, x + r, y - r, x + r, y + r],
    ...[x + r, y + r, x - r, y + r, x - r, y + r, x - r, y - r],
  ]);
  let visits = 0;
  const visit = BoxGrid.prototype.visit;
  // A spy would keep every call, and there are hundreds of thousands.
  BoxGrid.prototype.visit = function (box, call) {
    visit.call(this, box, (item) => {
      visits++;
      return call(item);
    });
  };
  try {
    const labels = place(requests, segmentField(Float64Array.from(lines)));
    return { labels, visits };
  } finally {
    BoxGrid.prototype.visit = visit;
  }
}

it('places a crowd of labels with work in step with their number, no callout over another', () => {
  const few = crowd(30, 2);
  const many = crowd(60, 2);
  expect(many.labels).toHaveLength(3600);
  expect(many.visits / 3600).toBeLessThan(2 * (few.visits / 900));
  const callouts = many.labels.filter((label) => label.form === 'callout');
  expect(callouts.length).toBeGreaterThan(100);
  const grid = new BoxGrid<Bounds>(10);
  for (const { box } of callouts) {
    expect(grid.meets(box)).toBe(false);
    grid.add(box, box);
  }
});

it('sets a crowd in small type inside its regions where it can', () => {
  const { labels, visits } = crowd(60, 25);
  expect(labels.filter((label) => label.form === 'callout')).toEqual([]);
  expect(Math.min(...labels.map(({ size }) => size))).toBeGreaterThanOrEqual(SIZES.smallestId / 4);
  expect(visits / 3600).toBeLessThan(10);
});
