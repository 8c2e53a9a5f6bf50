import type { Estimate } from '@brimline/estimating';
import type { Money } from '@brimline/quantities';
import { moneyHeadline, spanText } from '../format/measures.ts';
import { words } from '../words.ts';

interface Props {
  readonly estimate: Estimate;
  /** The job as it is stored; null where that can't be done. */
  readonly asStored: Estimate | null;
}

/** The figures that people ask for first, each with what the changes have done to it. */
export function TrialFigures({ estimate, asStored }: Props) {
  const { whatIf: say } = words;
  const cylinders = (one: Estimate): number =>
    (one.cylinders?.chosenIds.length ?? 0) + (one.supply?.cylinderIds.length ?? 0);
  const span = (now_s: number, before_s: number | undefined): string =>
    before_s === undefined ? '' : change(now_s - before_s, 30, spanText);
  return (
    <dl className="figures" aria-label={say.results}>
      <Figure
        label={say.hours}
        text={spanText(estimate.elapsed.p50_s)}
        note={words.job.p80(spanText(estimate.elapsed.p80_s))}
        changed={span(estimate.elapsed.p50_s, asStored?.elapsed.p50_s)}
      />
      <Figure
        label={say.attended}
        text={spanText(estimate.attended.p50_s)}
        note={words.job.personHours}
        changed={span(estimate.attended.p50_s, asStored?.attended.p50_s)}
      />
      {estimate.risk.cost && (
        <Figure
          label={say.cost}
          text={moneyHeadline(costOf(estimate.risk.cost))}
          note={say.costNote}
          changed={
            asStored?.risk.cost
              ? change(
                  estimate.risk.cost.p80_minor - asStored.risk.cost.p80_minor,
                  LEAST_MINOR,
                  (minorUnits) =>
                    moneyHeadline({
                      currency: estimate.risk.cost!.currency,
                      minorUnits: Math.round(minorUnits),
                    }),
                )
              : ''
          }
        />
      )}
      <Figure
        label={say.gear}
        text={spanText(estimate.gear_s)}
        changed={span(estimate.gear_s, asStored?.gear_s)}
      />
      <Figure
        label={say.cylinders}
        text={String(cylinders(estimate))}
        changed={asStored ? change(cylinders(estimate) - cylinders(asStored), 0.5, String) : ''}
      />
    </dl>
  );
}

/** Smaller differences are rounding. */
const LEAST_MINOR = 50;

function costOf({ currency, p80_minor }: NonNullable<Estimate['risk']['cost']>): Money {
  return { currency, minorUnits: Math.round(p80_minor) };
}

function change(by: number, least: number, textOf: (value: number) => string): string {
  const { whatIf: say } = words;
  if (Math.abs(by) < least) return say.same;
  return by > 0 ? say.more(textOf(by)) : say.less(textOf(-by));
}

interface FigureProps {
  readonly label: string;
  readonly text: string;
  readonly note?: string;
  readonly changed: string;
}

function Figure({ label, text, note, changed }: FigureProps) {
  return (
    <div>
      <dt className="label">{label}</dt>
      <dd className="figure">{text}</dd>
      {note !== undefined && <dd className="small soft">{note}</dd>}
      {changed !== '' && <dd className="small">{changed}</dd>}
    </div>
  );
}
