/** How much of a counted resource is in use, as levels that change at break points. */
export class CapacityProfile {
  private times: number[] = [0];
  private levels: number[] = [0];

  constructor(readonly amount: number) {}

  clear(): void {
    this.times = [0];
    this.levels = [0];
  }

  /** Earliest minute from the given one at which the amount is free for the whole span. */
  earliestFit(from_min: number, span_min: number, amount: number): number {
    if (span_min === 0 || amount === 0) return from_min;
    const most = this.amount - amount;
    let start_min = from_min;
    for (let index = this.indexAt(from_min); index < this.times.length; index += 1) {
      if (this.times[index]! >= start_min + span_min) break;
      if (this.levels[index]! > most) start_min = this.times[index + 1] ?? Number.POSITIVE_INFINITY;
    }
    return start_min;
  }

  take(from_min: number, to_min: number, amount: number): void {
    if (from_min >= to_min || amount === 0) return;
    const first = this.split(from_min);
    const last = this.split(to_min);
    for (let index = first; index < last; index += 1) this.levels[index]! += amount;
  }

  private split(minute: number): number {
    const index = this.indexAt(minute);
    if (this.times[index] === minute) return index;
    this.times.splice(index + 1, 0, minute);
    this.levels.splice(index + 1, 0, this.levels[index]!);
    return index + 1;
  }

  private indexAt(minute: number): number {
    let low = 0;
    let high = this.times.length - 1;
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.times[middle]! <= minute) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}
