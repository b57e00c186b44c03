import { readDrawing } from '../../src/drawing/read-drawing.js';
import { mapRegions } from '../../src/plane/map-regions.js';
import { buildRelief } from '../../src/relief/build-relief.js';
import type { Frame, Joint, RegionNumber, Relief } from '../../src/relief/relief.js';

/** Side of a cell, mm. */
const CELL = 20;

/** One cell of the test drawing: a square, perhaps with shapes in it, one in the other, each with a number. */
export interface Cell {
  /** Number of the square itself. */
  readonly depth: string;
  /**
   * From the outermost: a circle or a square, with its number. The innermost may be in two halves: the number is
   * that of the left one, `right` that of the other.
   */
  readonly inside: readonly {
    readonly shape: 'circle' | 'square';
    readonly depth: string;
    readonly right?: string | undefined;
  }[];
}

/** A drawing of cells side by side, and how it is to be built. */
export interface CellPicture {
  /** Rows of cells, all of one length. */
  readonly rows: readonly (readonly Cell[])[];
  /** Thicknesses of the sheets, front to back, mm. */
  readonly sheets: readonly number[];
  readonly joint?: Joint;
  readonly frame?: Frame;
}

/** Half sizes of the shapes in a cell, from the outermost, mm. */
const SIZES = [7, 4.5, 2.2];

/** The relief of such a picture, through reading, mapping and numbering. */
export function cellRelief({ rows, sheets, joint, frame }: CellPicture): Relief {
  const width = rows[0].length * CELL;
  const height = rows.length * CELL;
  const lines: string[] = [];
  const numbers: RegionNumber[] = [];
  for (let i = 0; i <= rows[0].length; i++) lines.push(`M${i * CELL} 0V${height}`);
  for (let j = 0; j <= rows.length; j++) lines.push(`M0 ${j * CELL}H${width}`);
  rows.forEach((row, j) => {
    row.forEach(({ depth, inside }, i) => {
      const [cx, cy] = [(i + 0.5) * CELL, (j + 0.5) * CELL];
      numbers.push({ at: [cx - 9, cy - 9], depth });
      inside.forEach(({ shape, depth: own, right }, k) => {
        const r = SIZES[k];
        lines.push(
          shape === 'square'
            ? `M${cx - r} ${cy - r}H${cx + r}V${cy + r}H${cx - r}Z`
            : `M${cx - r} ${cy}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`,
        );
        numbers.push({ at: [cx - r + 0.6, cy], depth: own });
        if (right === undefined || k + 1 < inside.length) return;
        lines.push(`M${cx} ${cy - r}V${cy + r}`);
        numbers.push({ at: [cx + r - 0.6, cy], depth: right });
      });
    });
  });
  const svg =
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width + 20}mm" height="${height + 20}mm" ` +
    `viewBox="-10 -10 ${width + 20} ${height + 20}"><path fill="none" stroke="#000" d="${lines.join('')}"/></svg>`;
  const map = mapRegions(readDrawing(svg));
  const stack = {
    sheets: sheets.map((thickness, j) => ({ id: `s${j + 1}`, thickness, material: 'poplar' })),
  };
  // Points count from the page's own corner, which is 10 mm up and left of the first cell.
  const moved = numbers.map(({ at, depth }) => ({ at: [at![0] + 10, at![1] + 10] as const, depth }));
  const inPage = map.page.x === 0 ? moved : numbers;
  return buildRelief(map, {
    stack,
    numbers: inPage,
    ...(joint === undefined ? {} : { joint }),
    ...(frame === undefined ? {} : { frame }),
  });
}
