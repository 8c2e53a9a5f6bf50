import type { Assumption, Estimate } from '@brimline/estimating';
import { Flag } from '../components/marks.tsx';
import { useUnits } from '../components/settings.tsx';
import { quantityText, spanText } from '../format/measures.ts';
import { words } from '../words.ts';

export function JobCautions({ cautions, phases }: Pick<Estimate, 'cautions' | 'phases'>) {
  const titles = new Map(phases.map(({ id, title }) => [id, title]));
  return (
    <section className="cautions" aria-labelledby="cautions-title">
      <h2 id="cautions-title" className={cautions.length > 0 ? 'caution-words' : undefined}>
        {cautions.length > 0 && <Flag />}
        {words.job.cautions}
      </h2>
      {cautions.length === 0 && (
        <p>
          {words.job.noCautions} {words.job.safety}
        </p>
      )}
      <ul>
        {cautions.map(({ code, text, phaseId, cause }) => (
          <li key={`${code} ${phaseId}`}>
            {text}
            <span className="small soft">
              {[phaseId === null ? null : titles.get(phaseId), cause].filter(Boolean).join(': ')}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

export function JobAssumptions({ assumptions }: { readonly assumptions: readonly Assumption[] }) {
  const units = useUnits();
  return (
    <section className="assumptions" aria-labelledby="assumptions-title">
      <h2 id="assumptions-title">{words.job.assumptions}</h2>
      {assumptions.length === 0 && <p>{words.job.noAssumptions}</p>}
      <ul>
        {assumptions.map(({ id, label, value, unit, effect, source, range, field }) => (
          <li key={id}>
            <span className="assumed">
              {label} <strong>{quantityText(value, unit, units)}</strong>
            </span>
            <span className="small soft">{effect}</span>
            {range && (
              <span className="small soft">
                {words.job.range(
                  quantityText(range.low, unit, units),
                  changeOf(range.atLow_s),
                  quantityText(range.high, unit, units),
                  changeOf(range.atHigh_s),
                )}
              </span>
            )}
            <span className="small soft">
              {source}
              {field === undefined ? '' : `; ${words.job.given(field)}`}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}

function changeOf(time_s: number): string {
  return words.job.moreOrLess(time_s, spanText(Math.abs(time_s)));
}
