import type { Reason } from '@brimline/estimating';
import type { PlannedJob } from '@brimline/planning';
import { decimalsOf, SECONDS_PER_HOUR } from '@brimline/quantities';
import { WithReason } from '../components/reason.tsx';
import { dayTimeText, localDayText } from '../format/clock.ts';
import { hoursText, moneyHeadline, percentText } from '../format/measures.ts';
import { words } from '../words.ts';

/** The four figures that people ask for first. */
export function JobFigures({ job }: { readonly job: PlannedJob }) {
  const { hours, quote } = job;
  return (
    <dl className="figures" aria-label={words.job.figures}>
      <div>
        <dt className="label">{words.job.hours}</dt>
        <dd className="figure">
          <WithReason id="hours" reason={hoursReason(job)} text={hoursText(hours.p50)} />
        </dd>
        <dd className="small soft">{words.job.p80(hoursText(hours.p80))}</dd>
      </div>
      <div>
        <dt className="label">{words.job.attended}</dt>
        <dd className="figure">
          <WithReason id="attended" reason={attendedReason(job)} text={hoursText(hours.attended)} />
        </dd>
        <dd className="small soft">{words.job.personHours}</dd>
      </div>
      <div>
        <dt className="label">{words.job.price}</dt>
        <dd className="figure">
          <WithReason id="price" reason={priceReason(job)} text={moneyHeadline(quote.priceBeforeTax)} />
        </dd>
        <dd className="small soft">{words.job.goodUntil(localDayText(quote.goodUntil))}</dd>
      </div>
      <OnSite job={job} />
    </dl>
  );
}

function OnSite({ job }: { readonly job: PlannedJob }) {
  const [first, last] = [job.phases[0], job.phases.at(-1)];
  if (!first || !last) return null;
  const zone = job.site.timeZone;
  const [from_ms, to_ms] = [Date.parse(first.start), Date.parse(last.end)];
  const needed_ms = job.phases
    .filter(({ manner }) => manner !== 'unattended')
    .flatMap(({ pieces }) => pieces)
    .reduce((sum, { start, end }) => sum + Date.parse(end) - Date.parse(start), 0);
  const alone_h = (to_ms - from_ms - needed_ms) / 1000 / SECONDS_PER_HOUR;
  return (
    <div>
      <dt className="label">{words.job.onSite}</dt>
      <dd className="figure">
        {dayTimeText(from_ms, zone)} – {dayTimeText(to_ms, zone)}
      </dd>
      <dd className="small soft">{words.job.unattendedHours(hoursText(alone_h, 0))}</dd>
    </div>
  );
}

function hoursReason({ hours, estimate }: PlannedJob): Reason {
  const { hours: say } = words.reason;
  return {
    label: say.label,
    value: hours.p50,
    unit: 'h',
    formula: say.formula,
    inputs: [
      { label: say.sampled, value: hours.p80, unit: 'h', source: words.reason.estimate },
      { label: say.likely, value: hours.elapsed, unit: 'h', source: words.reason.estimate },
      ...estimate.phases.map(({ title, elapsed, reason }) => ({
        label: title,
        value: elapsed.likely_s,
        unit: 's',
        source: reason.limitedBy ?? reason.source,
      })),
    ],
    limitedBy: null,
    source: say.source(estimate.samples, estimate.seed),
  };
}

function attendedReason({ hours, estimate }: PlannedJob): Reason {
  const { attended: say } = words.reason;
  return {
    label: say.label,
    value: hours.attended,
    unit: 'h',
    formula: say.formula,
    inputs: estimate.phases
      .filter(({ crew }) => crew > 0)
      .map(({ title, elapsed, crew, manner }) => ({
        label: title,
        value: elapsed.likely_s * crew,
        unit: 's',
        source: words.job.crewCount(crew, words.manner[manner]),
      })),
    limitedBy: null,
    source: words.reason.estimate,
  };
}

function priceReason({ quote }: PlannedJob): Reason {
  const { price: say } = words.reason;
  const major = (minorUnits: number): number => minorUnits / 10 ** decimalsOf(quote.currency);
  const input = (label: string, value: number | string, unit: string = quote.currency) => ({
    label,
    value,
    unit,
    source: words.reason.quote,
  });
  return {
    label: say.label,
    value: major(quote.priceBeforeTax.minorUnits),
    unit: quote.currency,
    formula: say.formula,
    inputs: [
      input(words.job.direct, major(quote.directCost.minorUnits)),
      input(words.job.overhead(percentText(quote.overheadShare)), major(quote.overhead.minorUnits)),
      input(words.job.contingency, major(quote.contingency.minorUnits)),
      input(words.job.margin(percentText(quote.marginShare)), major(quote.margin.minorUnits)),
    ],
    limitedBy: null,
    source: say.source(quote.rateCardId),
  };
}
