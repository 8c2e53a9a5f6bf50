/** One thing wrong in one file: where, what was found, and what is allowed. */
export interface FileProblem {
  readonly file: string;
  /** Path to the field, e.g. "sites[2].chillers[0].nameplateCharge"; empty for the whole file. */
  readonly field: string;
  readonly value: string;
  readonly allowed: string;
}

/** One line: file, field, value, what is allowed. */
export function formatProblem({ file, field, value, allowed }: FileProblem): string {
  return `${file}: ${field === '' ? '(file)' : field}: ${value} is not allowed; expected ${allowed}`;
}

/** @example fieldPath(['sites', 2, 'name']) // => "sites[2].name" */
export function fieldPath(path: readonly PropertyKey[]): string {
  return path.reduce<string>((text, key) => {
    if (typeof key === 'number') return `${text}[${key}]`;
    return text === '' ? String(key) : `${text}.${String(key)}`;
  }, '');
}

const LONGEST_VALUE = 80;

/** A value as a reader recognises it, cut when long. */
export function shownValue(value: unknown): string {
  const text = value === undefined ? 'nothing' : (JSON.stringify(value) ?? String(value));
  return text.length > LONGEST_VALUE ? `${text.slice(0, LONGEST_VALUE)}…` : text;
}
