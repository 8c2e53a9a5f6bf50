interface Props<Value extends string> {
  readonly label: string;
  readonly value: Value;
  readonly options: readonly (readonly [value: Value, text: string])[];
  readonly change: (value: Value) => void;
}

/** One choice out of a few, with its name above. */
export function Choice<Value extends string>({ label, value, options, change }: Props<Value>) {
  return (
    <label className="choice">
      <span className="label">{label}</span>
      <select value={value} onChange={(event) => change(event.target.value as Value)}>
        {options.map(([one, text]) => (
          <option key={one} value={one}>
            {text}
          </option>
        ))}
      </select>
    </label>
  );
}
