import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Bounds } from '../../src/geometry/point.js';
import { BoxGrid } from '../../src/output/box-grid.js';
import type { LabelRequest } from '../../src/output/label-request.js';
import { placeLabels } from '../../src/output/place-labels.js';
import { segmentField, segmentsInBox, wayIsFree } from '../../src/output/segment-field.js';

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
      expect([...grid.near(asked)].sort((a, b) => a - b)).toEqual(expected);
    }),
  );
});
