import { type Chiller, type Scope, SCOPES } from '@brimline/firm';
import { refrigerantNames } from '@brimline/planning';
import { useUnits } from '../components/settings.tsx';
import { words } from '../words.ts';
import { Choice } from './choice.tsx';
import { type Draft, type FactProblem, factText, isAsked, type storedJob } from './draft.ts';
import { FACT_NAMES, type FactName, FACTS, writtenUnit } from './facts.ts';

const COOLINGS: readonly Chiller['cooling'][] = ['air-cooled', 'water-cooled'];
const EVAPORATORS: readonly Chiller['evaporator'][] = ['direct-expansion', 'flooded', 'falling-film'];
const MOST_CIRCUITS = 8;

interface Props {
  readonly stored: NonNullable<ReturnType<typeof storedJob>>;
  readonly draft: Draft;
  readonly problems: readonly FactProblem[];
  readonly change: (draft: Draft) => void;
}

/** What is known of the machine and the job; a number is typed with its unit. */
export function FactFields({ stored, draft, problems, change }: Props) {
  const { whatIf: say } = words;
  const same = <Value extends string>(values: readonly Value[]) => values.map((one) => [one, one] as const);
  return (
    <fieldset className="fact-fields">
      <legend>{say.facts}</legend>
      <Choice
        label={say.scope}
        value={draft.scope}
        options={same<Scope>(SCOPES)}
        change={(scope) => change({ ...draft, scope })}
      />
      <Choice
        label={say.refrigerant}
        value={draft.refrigerant}
        options={same(refrigerantNames())}
        change={(refrigerant) => change({ ...draft, refrigerant })}
      />
      {FACT_NAMES.filter((fact) => isAsked(fact, draft.scope)).map((fact) => (
        <TypedFact
          key={fact}
          fact={fact}
          stored={stored}
          draft={draft}
          problem={problems.find((one) => one.fact === fact)?.message ?? null}
          change={change}
        />
      ))}
      <Choice
        label={say.cooling}
        value={draft.cooling}
        options={same(COOLINGS)}
        change={(cooling) => change({ ...draft, cooling })}
      />
      <Choice
        label={say.evaporator}
        value={draft.evaporator}
        options={same(EVAPORATORS)}
        change={(evaporator) => change({ ...draft, evaporator })}
      />
      <Choice
        label={say.circuits}
        value={String(draft.circuits)}
        options={same(Array.from({ length: MOST_CIRCUITS }, (_, index) => String(index + 1)))}
        change={(circuits) => change({ ...draft, circuits: Number(circuits) })}
      />
      <Choice
        label={say.water}
        value={draft.waterFlow ? 'yes' : 'no'}
        options={[
          ['yes', say.yes],
          ['no', say.no],
        ]}
        change={(water) => change({ ...draft, waterFlow: water === 'yes' })}
      />
    </fieldset>
  );
}

interface TypedFactProps extends Omit<Props, 'problems'> {
  readonly fact: FactName;
  readonly problem: string | null;
}

function TypedFact({ fact, stored, draft, problem, change }: TypedFactProps) {
  const units = useUnits();
  const text = factText(stored, draft, fact, units);
  const id = `fact-${fact}`;
  const isAssumed = FACTS[fact].optional && text.trim() === '';
  return (
    <div className="choice">
      <label className="label" htmlFor={id}>
        {words.whatIf.fact[fact]}
      </label>
      <input
        id={id}
        type="text"
        autoComplete="off"
        value={text}
        placeholder={writtenUnit(FACTS[fact].unit[units])}
        aria-invalid={problem !== null}
        aria-describedby={problem !== null || isAssumed ? `${id}-note` : undefined}
        onChange={(event) => change({ ...draft, typed: { ...draft.typed, [fact]: event.target.value } })}
      />
      {problem !== null && (
        <p id={`${id}-note`} className="caution-words small">
          {problem}
        </p>
      )}
      {problem === null && isAssumed && (
        <p id={`${id}-note`} className="small soft">
          {words.whatIf.assumed}
        </p>
      )}
    </div>
  );
}
