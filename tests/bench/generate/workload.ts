/** A point, mm. */
export type Place = readonly [x: number, y: number];

/** A polyline; the last point repeats the first where it is closed. */
export type Line = Place[];

/** Line work to measure with. */
export interface Workload {
  readonly name: string;
  readonly lines: readonly Line[];
  /** The number of bounded faces that is meant, where the making of the lines tells it. */
  readonly faces: number | null;
}

/** The same lines as a file with so many decimals would hold them. */
export function rounded(workload: Workload, decimals: number): Workload {
  const cut = (v: number): number => Number(v.toFixed(decimals));
  return {
    name: `${workload.name}, ${decimals} decimals`,
    lines: workload.lines.map((line) => line.map(([x, y]): Place => [cut(x), cut(y)])),
    faces: workload.faces,
  };
}

/** Number of segments. */
export function segmentCount(lines: readonly Line[]): number {
  let n = 0;
  for (const line of lines) n += line.length - 1;
  return n;
}

/**
 * The file that every peer reads, little-endian: uint32 number of lines L, uint32 number of vertices, then
 * x, y of every vertex as float64, then L + 1 uint32 vertex indices where the lines start.
 */
export function encodeWorkload(lines: readonly Line[]): Uint8Array {
  const starts = new Uint32Array(lines.length + 1);
  for (let i = 0; i < lines.length; i++) starts[i + 1] = starts[i] + lines[i].length;
  const vertices = starts[lines.length];
  const coords = new Float64Array(vertices * 2);
  let at = 0;
  for (const line of lines) {
    for (const [x, y] of line) {
      coords[at++] = x;
      coords[at++] = y;
    }
  }
  const out = new Uint8Array(8 + coords.byteLength + starts.byteLength);
  new Uint32Array(out.buffer, 0, 2).set([lines.length, vertices]);
  out.set(new Uint8Array(coords.buffer), 8);
  out.set(new Uint8Array(starts.buffer), 8 + coords.byteLength);
  return out;
}
