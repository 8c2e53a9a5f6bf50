import type { Estimate, SetupOutcome } from '@brimline/estimating';
import { formatNumber } from '@brimline/quantities';
import { h, signed } from './text-measures.ts';
import { textTable } from './text-table.ts';

function wayRow({
  label,
  chosen,
  elapsed_s,
  attended_person_s,
  cost_minor,
  limitedBy,
}: SetupOutcome): string[] {
  return [
    chosen ? '*' : '',
    label,
    h(elapsed_s),
    h(attended_person_s),
    cost_minor === null ? '' : formatNumber(cost_minor / 100, 0),
    limitedBy,
  ];
}

/** The ways side by side, what one change would buy, and what is no way. */
export function waysText({ ways: all }: Estimate): string[] {
  const allowed = all.filter(({ forbidden }) => forbidden.length === 0);
  const changes = allowed.flatMap(({ change }) => (change ? [changeText(change)] : []));
  const forbidden = all.filter((one) => one.forbidden.length > 0);
  return [
    'Ways to do it (cost at the wanted certainty; * recommended, which also weighs the clock and a machine kept free)',
    ...textTable(['', 'way', 'elapsed', 'attended', 'cost', 'limited by'], allowed.map(wayRow), [2, 3, 4]),
    ...(changes.length > 0 ? ['What one change would buy:', ...changes.map((text) => `  ${text}`)] : []),
    ...(forbidden.length > 0
      ? ['No way:', ...forbidden.map((one) => `  ${one.label}: ${one.forbidden.join('; ')}`)]
      : []),
    '',
  ];
}

function changeText({
  what,
  elapsed_s,
  attended_person_s,
  cost_minor,
}: NonNullable<SetupOutcome['change']>): string {
  const clock = signed(`${h(Math.abs(elapsed_s))} h`, elapsed_s);
  const people = signed(`${h(Math.abs(attended_person_s))} person-h`, attended_person_s);
  const cost =
    cost_minor === null ? '' : `, ${signed(formatNumber(Math.abs(cost_minor) / 100, 0), cost_minor)}`;
  return `${what}: ${clock}, ${people}${cost}`;
}
