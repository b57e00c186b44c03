/** A list of 32-bit integers that grows; a push costs amortised constant time and no object. */
export class Int32List {
  data: Int32Array;
  length = 0;

  constructor(capacity = 1024) {
    this.data = new Int32Array(capacity);
  }

  push(value: number): void {
    if (this.length === this.data.length) {
      const wider = new Int32Array(this.length * 2);
      wider.set(this.data);
      this.data = wider;
    }
    this.data[this.length++] = value;
  }
}
