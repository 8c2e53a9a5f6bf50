import type { Assumption, Estimate, Reason } from '@brimline/estimating';
import { h, percent } from './text-measures.ts';
import { textTable } from './text-table.ts';

export function riskText({ risk: one }: Estimate): string[] {
  const drivers = one.drivers
    .slice(0, 6)
    .map(({ label, elapsedShare, attendedShare }) => [label, percent(elapsedShare), percent(attendedShare)]);
  return [
    `What drives the spread (${one.samples} draws, seed ${one.seed}; ${one.distribution}; percentile rule: ${one.percentileRule})`,
    ...textTable(['', 'elapsed', 'attended'], drivers, [1, 2]),
    `Shared causes: ${one.causes.map(({ cause, elapsedShare }) => `${cause} ${percent(elapsedShare)}`).join(', ')}.`,
    ...one.loops.map(
      ({ test, probability, each, source }) =>
        `The ${test} fails with ${percent(probability)}; each time about ${h(each.likely_s)} h more (${h(each.low_s)} to ${h(each.high_s)}), ${source}.`,
    ),
    '',
  ];
}

export function cautionsText({ cautions: all }: Estimate): string[] {
  return ['Cautions', ...all.map(({ text, cause }) => `  ${text} [${cause}]`), ''];
}

export function assumptionsText(all: readonly Assumption[]): string[] {
  const text = (value: number | string): string =>
    typeof value === 'number' ? `${Number(value.toPrecision(4))}` : value;
  const range = (one: Assumption['range']): string =>
    one
      ? `; ${text(one.low)} would be ${h(one.atLow_s)} h, ${text(one.high)} would be ${h(one.atHigh_s)} h`
      : '';
  return [
    'Taken where nobody said',
    ...all.map(
      (one) =>
        `  ${one.label}: ${text(one.value)} ${one.unit === '-' ? '' : `${one.unit} `}(${one.source})${range(one.range)}; ${one.effect}${one.field === undefined ? '' : `; give "${one.field}" in the job file`}`,
    ),
    '',
  ];
}

function reasonLines({ label, value, unit, formula, inputs, limitedBy, source }: Reason): string[] {
  const shown = (one: number | string): string =>
    typeof one === 'number' ? `${Number(one.toPrecision(4))}` : one;
  return [
    `  ${label} = ${shown(value)} ${unit}   ${formula}`,
    ...inputs.map((one) => `      ${one.label} = ${shown(one.value)} ${one.unit}   ${one.source}`),
    `      source: ${source}${limitedBy === null || limitedBy === '' ? '' : `; limited by ${limitedBy}`}`,
  ];
}

export function reasonsText({ reasons: all }: Estimate): string[] {
  return ['Reasons', ...all.flatMap(reasonLines), ''];
}
