import type { CalculationField } from '@brimline/quantities';
import { useUnits } from '../components/settings.tsx';
import type { Answer } from '../data/ask.ts';
import type { CalculationFacts } from '../data/calculations.ts';
import { isConverted, quantityText, significant } from '../format/measures.ts';
import { words } from '../words.ts';
import { ScrollBox } from '../components/scroll-box.tsx';

interface Props {
  readonly calculation: CalculationFacts;
  readonly outcome: Answer<Readonly<Record<string, unknown>>> | null;
  readonly isRunning: boolean;
  /** Was the form changed since? */
  readonly isStale: boolean;
}

/** The answer as a table; SI as computed, and the units of the trade beside it. */
export function CalculatorResult({ calculation, outcome, isRunning, isStale }: Props) {
  return (
    <section
      className={isStale || isRunning ? 'result soft' : 'result'}
      aria-live="polite"
      aria-label={words.calculators.results}
    >
      <h3>{words.calculators.results}</h3>
      {isRunning && <p>{words.calculators.running}</p>}
      {!isRunning && !outcome && <p>{words.calculators.noResult}</p>}
      {isStale && outcome && <p>{words.calculators.previous}</p>}
      {outcome && !outcome.ok && <p className="caution-words">{outcome.message}</p>}
      {outcome?.ok && <Values calculation={calculation} values={outcome.value} />}
    </section>
  );
}

interface ValuesProps {
  readonly calculation: CalculationFacts;
  readonly values: Readonly<Record<string, unknown>>;
}

function Values({ calculation, values }: ValuesProps) {
  const units = useUnits();
  const { head } = words.calculators;
  const known = new Map(calculation.results.map((field) => [field.name, field]));
  const named = Object.keys(values).map(
    (name): CalculationField => known.get(name) ?? { name, type: 'string', unit: '-', meaning: name },
  );
  const hasAlso = named.some(({ unit }) => isConverted(unit, units));
  return (
    <ScrollBox label={words.calculators.results}>
      <table>
        <thead>
          <tr>
            <th scope="col">{head.what}</th>
            <th scope="col" className="number">
              {head.value}
            </th>
            {hasAlso && (
              <th scope="col" className="number">
                {head.also}
              </th>
            )}
          </tr>
        </thead>
        <tbody>
          {named.map((field) => {
            const value = values[field.name];
            return (
              <tr key={field.name}>
                <th scope="row">
                  {field.meaning}
                  {field.meaning !== field.name && (
                    <>
                      {' '}
                      <code className="small soft">{field.name}</code>
                    </>
                  )}
                </th>
                <td className={typeof value === 'number' ? 'number' : undefined}>
                  <Value field={field} value={value} />
                </td>
                {hasAlso && (
                  <td className="number soft">
                    {typeof value === 'number' && isConverted(field.unit, units)
                      ? quantityText(value, field.unit, units)
                      : ''}
                  </td>
                )}
              </tr>
            );
          })}
        </tbody>
      </table>
    </ScrollBox>
  );
}

function Value({ field, value }: { readonly field: CalculationField; readonly value: unknown }) {
  if (typeof value === 'number')
    return `${significant(value, 6)}${field.unit === '-' ? '' : ` ${field.unit}`}`;
  if (typeof value === 'boolean') return value ? words.calculators.yes : words.calculators.no;
  if (value === null || value === undefined) return words.calculators.unset;
  return typeof value === 'string' ? value : <pre>{JSON.stringify(value, null, 1)}</pre>;
}
