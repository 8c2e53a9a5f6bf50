import { OutOfDomainError } from '@brimline/quantities';
import type { MinuteSpan } from './spans.ts';

/**
 * Working time as a running sum: how much of it has passed at a minute, and the minute at which so much has passed.
 * The sum is kept at the start of each span, so that both questions are one binary search.
 */
export class WorkingTime {
  private readonly before_min: number[] = [];
  readonly total_min: number;

  /** @throws OutOfDomainError unless the spans are sorted, not empty and do not overlap */
  constructor(readonly open: readonly MinuteSpan[]) {
    let sum_min = 0;
    let last_min = Number.NEGATIVE_INFINITY;
    for (const [from_min, to_min] of open) {
      if (!(from_min >= last_min && to_min > from_min)) {
        throw new OutOfDomainError(
          'working time [min]',
          `${from_min} to ${to_min}`,
          'sorted, disjoint spans',
        );
      }
      this.before_min.push(sum_min);
      sum_min += to_min - from_min;
      last_min = to_min;
    }
    this.total_min = sum_min;
  }

  /** Working time before a minute [min]. */
  worked(minute: number): number {
    const at = this.lastAtOrBefore(minute, (index) => this.open[index]![0]);
    if (at < 0) return 0;
    const [from_min, to_min] = this.open[at]!;
    return this.before_min[at]! + Math.min(minute, to_min) - from_min;
  }

  /**
   * The first minute at which so much working time has passed; infinite when there is less.
   * At the end of a span that is its end, not the start of the next: work done by closing time is done then.
   */
  whenWorked(worked_min: number): number {
    if (worked_min > this.total_min) return Number.POSITIVE_INFINITY;
    const at = this.lastAtOrBefore(worked_min, (index) => this.before_min[index]!);
    if (at < 0) return 0;
    const span = worked_min === this.before_min[at] && at > 0 ? at - 1 : at;
    return this.open[span]![0] + worked_min - this.before_min[span]!;
  }

  /** End of so much work begun at a minute, pauses left out; infinite when the open time does not suffice. */
  endOf(start_min: number, work_min: number): number {
    return work_min === 0 ? start_min : this.whenWorked(this.worked(start_min) + work_min);
  }

  private lastAtOrBefore(value: number, key: (index: number) => number): number {
    let low = 0;
    let high = this.open.length - 1;
    while (low <= high) {
      const middle = (low + high) >> 1;
      if (key(middle) <= value) low = middle + 1;
      else high = middle - 1;
    }
    return high;
  }
}

/** The minutes of a span that lie inside the first list, and the rest: regular hours and others, for instance. */
export function splitMinutes(
  [from_min, to_min]: MinuteSpan,
  inside: WorkingTime,
): { readonly inside_min: number; readonly outside_min: number } {
  const inside_min = inside.worked(to_min) - inside.worked(from_min);
  return { inside_min, outside_min: to_min - from_min - inside_min };
}
