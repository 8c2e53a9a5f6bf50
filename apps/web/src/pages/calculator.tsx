import { type FormEvent, useState } from 'react';
import { type Answer, askJson } from '../data/ask.ts';
import { type CalculationFacts, exampleTexts, type FieldTexts, readInput } from '../data/calculations.ts';
import { words } from '../words.ts';
import { CalculatorField } from './calculator-field.tsx';
import { CalculatorResult } from './calculator-result.tsx';

type Outcome = Answer<Readonly<Record<string, unknown>>>;

interface Asked {
  readonly texts: FieldTexts;
  readonly outcome: Outcome | null;
}

/** One calculation: a form made from its fields, and the answer with its units. */
export function Calculator({ calculation }: { readonly calculation: CalculationFacts }) {
  const [texts, setTexts] = useState(() => exampleTexts(calculation));
  const [asked, setAsked] = useState<Asked | null>(null);
  const [fault, setFault] = useState<{ readonly field: string; readonly message: string } | null>(null);
  const run = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const read = readInput(calculation, texts);
    setFault(read.ok ? null : read);
    if (!read.ok) {
      document.getElementById(`field-${read.field}`)?.focus();
      return;
    }
    setAsked({ texts, outcome: null });
    const outcome = await askJson<Readonly<Record<string, unknown>>>(
      calculation.title,
      `api/calc/${encodeURIComponent(calculation.name)}`,
      {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify(read.input),
      },
    );
    setAsked({ texts, outcome });
  };
  return (
    <section className="calculator" aria-labelledby="calculator-title">
      <h2 id="calculator-title">{calculation.title}</h2>
      <dl className="facts">
        <Fact label={words.calculators.formula} text={calculation.formula} />
        <Fact label={words.calculators.source} text={calculation.source} />
      </dl>
      <form onSubmit={(event) => void run(event)} noValidate>
        {calculation.fields.map((field) => (
          <CalculatorField
            key={field.name}
            field={field}
            example={calculation.example[field.name]}
            text={texts[field.name] ?? ''}
            fault={fault?.field === field.name ? fault.message : null}
            change={(text) => setTexts({ ...texts, [field.name]: text })}
          />
        ))}
        <div className="actions">
          <button type="submit" className="run">
            {words.calculators.run}
          </button>
          <button type="button" onClick={() => setTexts(exampleTexts(calculation))}>
            {words.calculators.example}
          </button>
        </div>
      </form>
      <CalculatorResult
        calculation={calculation}
        outcome={asked?.outcome ?? null}
        isRunning={asked !== null && asked.outcome === null}
        isStale={asked !== null && asked.texts !== texts}
      />
    </section>
  );
}

function Fact({ label, text }: { readonly label: string; readonly text: string }) {
  return (
    <div>
      <dt className="label">{label}</dt>
      <dd>{text}</dd>
    </div>
  );
}
