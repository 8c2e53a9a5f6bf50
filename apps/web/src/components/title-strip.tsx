import { dayTimeText, ownZone } from '../format/clock.ts';
import type { PlanView } from '../data/plan-source.ts';
import { words } from '../words.ts';

interface Props {
  readonly what: string;
  readonly view: PlanView;
  readonly rateCard: string | null;
}

/** As on a drawing: what this is, when it came, by which engine and seed, priced by which card. */
export function TitleStrip({ what, view, rateCard }: Props) {
  const { plan, fetched_ms } = view;
  const cells: [string, string][] = [[words.strip.what, what]];
  if (fetched_ms !== null) cells.push([words.strip.made, dayTimeText(fetched_ms, ownZone())]);
  if (plan) cells.push([words.strip.engine, `${plan.engineVersion}, ${plan.seed}`]);
  if (rateCard !== null) cells.push([words.strip.rateCard, rateCard]);
  if (plan) {
    cells.push([words.strip.schedules, plan.schedule.schedules.toLocaleString('en-US')]);
    cells.push([words.strip.firm, plan.firm.name]);
  }
  return (
    <footer className="title-strip">
      {cells.map(([label, text]) => (
        <div key={label}>
          <span className="label">{label}</span>
          {text}
        </div>
      ))}
    </footer>
  );
}
