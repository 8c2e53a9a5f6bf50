import type { CalculationField } from '@brimline/quantities';
import { choicesOf } from '../data/calculations.ts';
import { words } from '../words.ts';

interface Props {
  readonly field: CalculationField;
  /** What the field holds in the calculation's example. */
  readonly example: unknown;
  readonly text: string;
  readonly fault: string | null;
  readonly change: (text: string) => void;
}

/** One field of a calculation's form, with its meaning, its unit and what is allowed. */
export function CalculatorField({ field, example, text, fault, change }: Props) {
  const id = `field-${field.name}`;
  const isJson = field.type === 'list' || field.type === 'object';
  const choices = choicesOf(field);
  const allowed = field.allowed && choices.length === 0 ? words.calculators.allowed(field.allowed) : null;
  const notes = [
    allowed,
    isJson ? words.calculators.json : null,
    field.optional ? words.calculators.optional : null,
  ];
  const note = notes.filter((one) => one !== null).join('; ');
  return (
    <div className="field">
      <label htmlFor={id}>{field.meaning}</label>
      <div className="with-unit">
        <FieldControl
          id={id}
          field={field}
          text={text}
          choices={choices}
          described={`${id}-note`}
          isFaulty={fault !== null}
          isDay={field.type === 'date' && isDayText(example)}
          change={change}
        />
        {field.unit !== '-' && <span>{field.unit}</span>}
      </div>
      <p id={`${id}-note`} className="small soft">
        <code>{field.name}</code>
        {note !== '' && `; ${note}`}
      </p>
      {fault !== null && (
        <p className="caution-words" role="alert">
          {fault}
        </p>
      )}
    </div>
  );
}

/** Some dates are known to the month only, such as the stamp on a cylinder; those are typed as text. */
function isDayText(example: unknown): boolean {
  return example === undefined || /^\d{4}-\d{2}-\d{2}$/.test(String(example));
}

interface ControlProps {
  readonly id: string;
  readonly field: CalculationField;
  readonly text: string;
  readonly choices: readonly string[];
  readonly described: string;
  readonly isFaulty: boolean;
  readonly isDay: boolean;
  readonly change: (text: string) => void;
}

function FieldControl({ id, field, text, choices, described, isFaulty, isDay, change }: ControlProps) {
  const shared = {
    id,
    value: text,
    'aria-describedby': described,
    'aria-invalid': isFaulty,
    onChange: (event: { readonly target: { readonly value: string } }) => change(event.target.value),
  };
  if (field.type === 'list' || field.type === 'object')
    return <textarea {...shared} rows={6} spellCheck={false} />;
  if (field.type === 'boolean') {
    return (
      <select {...shared}>
        {field.optional && <option value="">{words.calculators.unset}</option>}
        <option value="true">{words.calculators.yes}</option>
        <option value="false">{words.calculators.no}</option>
      </select>
    );
  }
  if (choices.length > 0) {
    return (
      <select {...shared}>
        {(field.optional || text === '') && <option value="">{words.calculators.unset}</option>}
        {(choices.includes(text) || text === '' ? choices : [text, ...choices]).map((choice) => (
          <option key={choice} value={choice}>
            {choice}
          </option>
        ))}
      </select>
    );
  }
  return (
    <input
      {...shared}
      type={isDay ? 'date' : 'text'}
      inputMode={field.type === 'number' ? 'decimal' : undefined}
      autoComplete="off"
    />
  );
}
