/** Polylines in grid steps, unrounded (`quantize`), in the order of the input lines, with split points put in. */
export interface GridLines {
  readonly x: Float64Array;
  readonly y: Float64Array;
  /** 1 for the last vertex of a line: no segment runs on from there. */
  readonly last: Uint8Array;
  /** Input vertex that starts the input segment which runs on from this vertex. */
  readonly source: Int32Array;
  /** Place on that input segment, 0 to 1: above 0 only for split points. null where nothing was split. */
  readonly t: Float64Array | null;
  /** Points that were put on another line, or moved to another point. */
  readonly welded: number;
}

/** All are made in one place: code that was compiled for them holds for all of them. */
export function gridLines(
  { x, y, last }: Pick<GridLines, 'x' | 'y' | 'last'>,
  source: Int32Array,
  t: Float64Array | null,
  welded: number,
): GridLines {
  return { x, y, last, source, t, welded };
}
