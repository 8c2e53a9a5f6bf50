import type { Estimate, RefrigerantAccount as Account } from '@brimline/estimating';
import { WithReason } from '../components/reason.tsx';
import { useUnits } from '../components/settings.tsx';
import { closeAccount } from '../drawing/close-account.ts';
import { massText } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

interface Props {
  readonly estimate: Pick<Estimate, 'cylinders' | 'supply'>;
  /** Tags that the plan booked; empty where nothing is booked. */
  readonly booked: readonly string[];
}

/** How many cylinders, how full, and which. */
export function JobCylinders({ estimate, booked }: Props) {
  const units = useUnits();
  const { cylinders: plan, supply } = estimate;
  const { cylinder: say } = words.job;
  return (
    <section aria-labelledby="cylinders-title">
      <h2 id="cylinders-title">{words.job.cylinders}</h2>
      {!plan && <p>{words.job.noCylinders}</p>}
      <dl className="pairs">
        {plan && (
          <>
            <div>
              <dt>{say.needed}</dt>
              <dd>
                <WithReason id="cylinders" reason={plan.reason} text={String(plan.needed)} />
              </dd>
            </div>
            <Pair label={say.spare} text={String(plan.spare)} />
            <Pair label={say.waterCapacity} text={massText(plan.class_waterCapacity_kg, units)} />
            <Pair label={say.fillLimit} text={massText(plan.fillLimit_kg, units)} />
          </>
        )}
        {booked.length > 0 && <Pair label={say.booked} text={booked.join(', ')} />}
        {supply && (
          <>
            <Pair
              label={words.job.supply}
              text={[
                massText(supply.fromStock_kg, units),
                ...supply.cylinderIds,
                ...(supply.onePort ? [words.job.supplyOnePort] : []),
              ].join(', ')}
            />
            <Pair label={words.job.toBuy} text={massText(supply.toBuy_kg, units)} />
          </>
        )}
      </dl>
    </section>
  );
}

function Pair({ label, text }: { readonly label: string; readonly text: string }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{text}</dd>
    </div>
  );
}

/** Where every pound goes: two sides that must be equal, and say so when they are not. */
export function RefrigerantAccount({ account }: { readonly account: Account }) {
  const units = useUnits();
  const { accountHead: head, accountRows: rows } = words.job;
  const { from, to, sum_kg, missing_kg } = closeAccount(account);
  const lines = Array.from({ length: Math.max(from.length, to.length) }, (_, index) => ({
    left: from[index],
    right: to[index],
  }));
  return (
    <section aria-labelledby="account-title" className="keep">
      <h2 id="account-title">{units === 'us' ? words.job.account : words.job.accountSi}</h2>
      <ScrollBox label={words.job.account}>
        <table className="account">
          <thead>
            <tr>
              <th scope="col" colSpan={2}>
                {head.from}
              </th>
              <th scope="col" colSpan={2}>
                {head.to}
              </th>
            </tr>
          </thead>
          <tbody>
            {lines.map(({ left, right }) => (
              <tr key={`${left?.what} ${right?.what}`}>
                <td>{left && rows[left.what]}</td>
                <td className="number">{left && massText(left.mass_kg, units, 1)}</td>
                <td>{right && rows[right.what]}</td>
                <td className="number">{right && massText(right.mass_kg, units, 1)}</td>
              </tr>
            ))}
            <tr className="total">
              <td>{rows.sum}</td>
              <td className="number">{massText(sum_kg, units, 1)}</td>
              <td>{rows.sum}</td>
              <td className="number">{massText(sum_kg - missing_kg, units, 1)}</td>
            </tr>
          </tbody>
        </table>
      </ScrollBox>
      <p className={missing_kg === 0 ? 'small soft' : 'caution-words'}>
        {missing_kg === 0 ? words.job.accountCloses : words.job.accountOff(massText(missing_kg, units, 2))}
      </p>
    </section>
  );
}
