import { useEffect, useState } from 'react';
import { EmptyState, FailedState, LoadingState } from '../components/page-states.tsx';
import { type Answer, askJson } from '../data/ask.ts';
import type { CalculationFacts } from '../data/calculations.ts';
import { calculatorLink } from '../route.ts';
import { words } from '../words.ts';
import { Calculator } from './calculator.tsx';

/** Every engineering calculation by itself, with its formula and source. */
export function CalculatorsPage({ name }: { readonly name: string | null }) {
  const [answer, setAnswer] = useState<Answer<readonly CalculationFacts[]> | null>(null);
  useEffect(() => {
    void fetchList().then(setAnswer);
  }, []);
  if (!answer) return <LoadingState message={words.calculators.listLoading} />;
  const again = (
    <button
      type="button"
      onClick={() => {
        setAnswer(null);
        void fetchList().then(setAnswer);
      }}
    >
      {words.state.tryAgain}
    </button>
  );
  if (!answer.ok) {
    return (
      <FailedState title={words.calculators.title} message={answer.message}>
        {again}
      </FailedState>
    );
  }
  if (answer.value.length === 0) return <EmptyState message={words.calculators.empty}>{again}</EmptyState>;
  return <CalculatorList list={answer.value} name={name} />;
}

function fetchList(): Promise<Answer<readonly CalculationFacts[]>> {
  return askJson<readonly CalculationFacts[]>(words.calculators.service, 'api/calc');
}

interface ListProps {
  readonly list: readonly CalculationFacts[];
  readonly name: string | null;
}

function CalculatorList({ list, name }: ListProps) {
  const chosen = list.find((one) => one.name === name);
  return (
    <>
      <h1>{words.calculators.title}</h1>
      <div className="calculators below">
        <nav aria-label={words.calculators.title} className={chosen ? 'chosen' : undefined}>
          <ul>
            {list.map((one) => (
              <li key={one.name}>
                <a href={calculatorLink(one.name)} aria-current={one === chosen ? 'page' : undefined}>
                  {one.title}
                </a>
              </li>
            ))}
          </ul>
        </nav>
        {chosen ? (
          <Calculator key={chosen.name} calculation={chosen} />
        ) : (
          <p>{name === null ? words.calculators.pick : words.calculators.unknown(name)}</p>
        )}
      </div>
    </>
  );
}
