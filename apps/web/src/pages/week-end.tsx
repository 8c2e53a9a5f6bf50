import type { WeekPlan } from '@brimline/planning';
import { dayTimeText, zoneName } from '../format/clock.ts';
import { percentText } from '../format/measures.ts';
import { words } from '../words.ts';

/** The plan's end in words: planned, the bound below it by name, and the gap. */
export function WeekEnd({ plan, timeZone }: { readonly plan: WeekPlan; readonly timeZone: string }) {
  const { schedule } = plan;
  const end_ms = Date.parse(schedule.end);
  const bound_ms = Date.parse(schedule.lowerBound);
  return (
    <p className="week-end">
      <strong>{words.week.allDone}</strong>{' '}
      {[
        `${words.week.planned(dayTimeText(end_ms, timeZone))} ${zoneName(end_ms, timeZone)}`,
        words.week.bound(dayTimeText(bound_ms, timeZone), schedule.bound),
        words.week.gap(percentText(schedule.gap, 1).replace(' %', '')),
      ].join('; ')}
    </p>
  );
}
