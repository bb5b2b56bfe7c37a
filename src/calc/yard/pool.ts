/** A growing row of numbers without boxing. */
export class Pool {
  values: Float64Array;
  length = 0;
  constructor(capacity = 4096) {
    this.values = new Float64Array(capacity);
  }
  push(value: number): void {
    if (this.length === this.values.length) {
      const wider = new Float64Array(this.length * 2);
      wider.set(this.values);
      this.values = wider;
    }
    this.values[this.length++] = value;
  }
}

/** A growing row of whole numbers. */
export class IntPool {
  values: Int32Array;
  length = 0;
  constructor(capacity = 4096) {
    this.values = new Int32Array(capacity);
  }
  push(value: number): void {
    if (this.length === this.values.length) {
      const wider = new Int32Array(this.length * 2);
      wider.set(this.values);
      this.values = wider;
    }
    this.values[this.length++] = value;
  }
}
