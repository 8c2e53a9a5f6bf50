import type { Reason } from '@brimline/estimating';
import { WithReason } from '../components/reason.tsx';
import { useUnits } from '../components/settings.tsx';
import { quantityText } from '../format/measures.ts';
import { words } from '../words.ts';

/** Every other number that the engines explain. */
export function JobNumbers({ reasons }: { readonly reasons: readonly Reason[] }) {
  const units = useUnits();
  if (reasons.length === 0) return null;
  return (
    <section aria-labelledby="numbers-title">
      <h2 id="numbers-title">{words.job.numbers}</h2>
      <dl className="pairs">
        {reasons.map((reason) => (
          <div key={reason.label}>
            <dt>{reason.label}</dt>
            <dd>
              <WithReason
                id={`number ${reason.label}`}
                reason={reason}
                text={quantityText(reason.value, reason.unit, units)}
              />
            </dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
