/** Bytes of a slab, and the largest array that is cut from one: larger ones cost little beside being filled. */
const SLAB = 1 << 17;
const LARGEST = SLAB >> 3;

/**
 * Working arrays of one computation, all zeros, cut from common slabs of memory: small drawings need a hundred
 * arrays of some kilobytes, and each one of its own costs more than its use. For arrays that are not handed out.
 */
export class Scratch {
  private slab: ArrayBuffer | null = null;
  private used = 0;

  /** `n` whole numbers. */
  int32(n: number): Int32Array<ArrayBuffer> {
    if (4 * n > LARGEST) return new Int32Array(n);
    const at = this.take(4 * n);
    return new Int32Array(this.slab as ArrayBuffer, at, n);
  }

  /** `n` doubles. */
  float64(n: number): Float64Array<ArrayBuffer> {
    if (8 * n > LARGEST) return new Float64Array(n);
    const at = this.take(8 * n);
    return new Float64Array(this.slab as ArrayBuffer, at, n);
  }

  /** `n` bytes. */
  uint8(n: number): Uint8Array<ArrayBuffer> {
    if (n > LARGEST) return new Uint8Array(n);
    const at = this.take(n);
    return new Uint8Array(this.slab as ArrayBuffer, at, n);
  }

  private take(bytes: number): number {
    if (this.slab === null || this.used + bytes > SLAB) {
      this.slab = new ArrayBuffer(SLAB);
      this.used = 0;
    }
    const at = this.used;
    this.used += (bytes + 7) & ~7;
    return at;
  }
}
