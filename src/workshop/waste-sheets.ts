import type { Point } from '../geometry/point.js';
import { holdsAll, type SheetSet } from './sheet-sets.js';
import type { BorderPoint } from './waste-border.js';
import { cutWaste, leadsIn, type WastePart } from './waste-parts.js';

/** A part of the waste, and the sheets in which it is off. */
export interface PartInSheets extends WastePart {
  readonly off: SheetSet;
}

/** Sheets through which the same ways are sawn. */
interface Layer {
  readonly sheets: SheetSet;
  readonly ways: ReadonlySet<number>;
  readonly parts: readonly PartInSheets[];
}

/** The waste of a board in all its sheets. Sheets through which the same ways lead have the same parts. */
export class WasteSheets {
  #layers: readonly Layer[];

  constructor(loops: readonly (readonly BorderPoint[])[], sheets: number) {
    const all = sheets >= 31 ? -1 : (1 << sheets) - 1;
    this.#layers = [{ sheets: all, ways: new Set(), parts: [{ loops, off: 0 }] }];
  }

  /** Cuts along a way through the sheets held, where it is not sawn yet. */
  cut(points: readonly Point[], way: number, node: number, held: SheetSet): void {
    this.#layers = this.#layers.flatMap((layer): Layer[] => {
      const sheets = layer.sheets & held;
      if (sheets === 0 || layer.ways.has(way)) return [layer];
      const cut: Layer = {
        sheets,
        ways: new Set([...layer.ways, way]),
        parts: layer.parts.flatMap((part) =>
          cutWaste([part], points, way, node).map(({ loops }) => ({ loops, off: part.off & sheets })),
        ),
      };
      const rest = layer.sheets & ~held;
      return rest === 0 ? [cut] : [{ ...layer, sheets: rest }, cut];
    });
  }

  /** Into how many parts the waste is cut in each of the sheets, front to back. */
  counts(held: SheetSet): number[] {
    const counts: number[] = [];
    for (let j = 0; j < 31; j++) {
      if ((held & (1 << j)) !== 0) counts.push(this.#layerOf(1 << j).parts.length);
    }
    return counts;
  }

  /** Takes off what nothing holds any more in sheets held. @param openAt the sheets in which nothing holds at a line */
  takeOff(
    held: SheetSet,
    openAt: (line: number) => SheetSet,
  ): { readonly part: WastePart; readonly sheets: SheetSet }[] {
    const found: { part: WastePart; sheets: SheetSet }[] = [];
    this.#layers = this.#layers.map((layer) => {
      const parts = layer.parts.map((part) => {
        let sheets = layer.sheets & held & ~part.off;
        for (const { line } of part.loops.flat()) {
          if (sheets === 0) return part;
          if (line >= 0) sheets &= openAt(line);
        }
        if (sheets === 0) return part;
        found.push({ part, sheets });
        return { ...part, off: part.off | sheets };
      });
      return { ...layer, parts };
    });
    return found;
  }

  /** The parts in the sheets held: those of one layer lie side by side. */
  parts(held: SheetSet): { readonly part: WastePart; readonly layer: number }[] {
    return this.#layers.flatMap(({ sheets, parts }, layer) =>
      (sheets & held) === 0 ? [] : parts.map((part) => ({ part, layer })),
    );
  }

  /** How many parts are still held, in the sheet held that has most. */
  holding(held: SheetSet): number {
    const counts = this.#layers.flatMap(({ sheets, parts }) => {
      const own = sheets & held;
      return own === 0 ? [] : [parts.filter(({ off }) => !holdsAll(off, own)).length];
    });
    return Math.max(0, ...counts);
  }

  /** One of the parts at a node is off in all the sheets. */
  isOff(node: number, held: SheetSet): boolean {
    return this.#layers
      .filter(({ sheets }) => (sheets & held) !== 0)
      .every(({ sheets, parts }) =>
        parts.some(
          ({ loops, off }) =>
            holdsAll(off, sheets & held) && loops.some((loop) => loop.some((p) => p.node === node)),
        ),
      );
  }

  /** A way sets out into the waste from a node towards a point. */
  leadsIn(node: number, towards: Point): boolean {
    const [{ parts }] = this.#layers;
    return parts.some(({ loops }) =>
      loops.some((loop) => loop.some((p, i) => p.node === node && leadsIn(loop, i, towards))),
    );
  }

  #layerOf(sheet: SheetSet): Layer {
    return this.#layers.find(({ sheets }) => (sheets & sheet) !== 0)!;
  }
}
