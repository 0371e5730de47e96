/** Priority queue: returns the value with the greatest key first; among equal keys, the one pushed first. */
export class MaxHeap {
  private readonly keys: number[] = [];
  private readonly values: number[] = [];

  clear(): void {
    this.keys.length = 0;
    this.values.length = 0;
  }

  get size(): number {
    return this.keys.length;
  }

  /** The greatest key. */
  get topKey(): number {
    return this.keys[0];
  }

  /** Values must be pushed in rising order. */
  push(key: number, value: number): void {
    const { keys, values } = this;
    let at = keys.length;
    keys.push(key);
    values.push(value);
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (keys[above] >= key) break;
      keys[at] = keys[above];
      values[at] = values[above];
      at = above;
    }
    keys[at] = key;
    values[at] = value;
  }

  /** Removes and returns the value with the greatest key; the heap must not be empty. */
  pop(): number {
    const { keys, values } = this;
    const out = values[0];
    const key = keys.pop() as number;
    const value = values.pop() as number;
    const size = keys.length;
    if (size === 0) return out;
    let at = 0;
    for (;;) {
      let below = 2 * at + 1;
      if (below >= size) break;
      if (below + 1 < size && this.before(below + 1, below)) below++;
      if (key > keys[below] || (key === keys[below] && value < values[below])) break;
      keys[at] = keys[below];
      values[at] = values[below];
      at = below;
    }
    keys[at] = key;
    values[at] = value;
    return out;
  }

  private before(i: number, j: number): boolean {
    return this.keys[i] > this.keys[j] || (this.keys[i] === this.keys[j] && this.values[i] < this.values[j]);
  }
}
