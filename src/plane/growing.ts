/** A list of 32-bit integers that grows; a push costs amortised constant time and no object. */
export class Int32List {
  data: Int32Array;
  length = 0;

  /** Starts with `room` if that is given, else with room for 1,024. */
  constructor(room = new Int32Array(1024)) {
    this.data = room;
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
