/** Bytes of the smallest and the largest slab. */
const SMALLEST_SLAB = 1 << 14;
const LARGEST_SLAB = 1 << 20;

/** Bytes of the largest array that is cut from a slab: larger ones cost little beside being filled. */
const LARGEST = 1 << 18;

/**
 * Working arrays of one computation, all zeros, cut from common slabs of memory: a small drawing needs a hundred
 * arrays of some kilobytes, and each one of its own costs more than its use. For arrays that are not handed out.
 */
export class Scratch {
  private readonly slabs: Slab[] = [];
  private current = 0;
  private used = 0;
  private nested: Scratch | null = null;
  private readonly size: number;

  /** `room`: bytes of a slab, more or less. */
  constructor(room = 1 << 17) {
    let size = SMALLEST_SLAB;
    while (size < room && size < LARGEST_SLAB) size *= 2;
    this.size = size;
  }

  /** Arrays for one phase only: `reset` takes them back. */
  get brief(): Scratch {
    this.nested ??= new Scratch(this.size);
    return this.nested;
  }

  /** Takes all arrays back, to be used again: who still holds one must not read or write it. */
  reset(): void {
    for (let i = 0; i <= this.current && i < this.slabs.length; i++) this.slabs[i].isDirty = true;
    this.current = 0;
    this.used = 0;
  }

  /** `n` whole numbers. */
  int32(n: number): Int32Array<ArrayBuffer> {
    if (4 * n > LARGEST) return new Int32Array(n);
    const { buffer, isDirty } = this.take(4 * n);
    const array = new Int32Array(buffer, this.used, n);
    if (isDirty) array.fill(0);
    this.used += (4 * n + 7) & ~7;
    return array;
  }

  /** `n` doubles. */
  float64(n: number): Float64Array<ArrayBuffer> {
    if (8 * n > LARGEST) return new Float64Array(n);
    const { buffer, isDirty } = this.take(8 * n);
    const array = new Float64Array(buffer, this.used, n);
    if (isDirty) array.fill(0);
    this.used += 8 * n;
    return array;
  }

  /** `n` bytes. */
  uint8(n: number): Uint8Array<ArrayBuffer> {
    if (n > LARGEST) return new Uint8Array(n);
    const { buffer, isDirty } = this.take(n);
    const array = new Uint8Array(buffer, this.used, n);
    if (isDirty) array.fill(0);
    this.used += (n + 7) & ~7;
    return array;
  }

  /** The slab that has room for so many bytes, from `used` on. */
  private take(bytes: number): Slab {
    while (this.current < this.slabs.length) {
      const slab = this.slabs[this.current];
      if (this.used + bytes <= slab.buffer.byteLength) return slab;
      this.current++;
      this.used = 0;
    }
    const slab = { buffer: new ArrayBuffer(Math.max(bytes, this.size)), isDirty: false };
    this.slabs.push(slab);
    return slab;
  }
}

/** Bytes of a slab for each vertex: some of each kind of array fit in. */
const BYTES_A_VERTEX = 32;

/** Working memory for lines of so many vertices. */
export const scratchFor = (vertices: number): Scratch => new Scratch(BYTES_A_VERTEX * vertices);

interface Slab {
  readonly buffer: ArrayBuffer;
  /** Whether arrays were cut from it before. */
  isDirty: boolean;
}
