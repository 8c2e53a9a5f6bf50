import type { z } from 'zod';
import { type FileProblem, fieldPath, shownValue } from './file-problem.ts';

type Issue = z.core.$ZodIssue;

/** Turns what the schema library found into problems that name file, field, value and what is allowed. */
export function problemsOfIssues(file: string, input: unknown, issues: readonly Issue[]): FileProblem[] {
  return issues.flatMap((issue) => problemsOf(file, input, issue, []));
}

function problemsOf(
  file: string,
  input: unknown,
  issue: Issue,
  parents: readonly PropertyKey[],
): FileProblem[] {
  const path = [...parents, ...issue.path];
  if (issue.code === 'unrecognized_keys') {
    return issue.keys.map((key) => ({
      file,
      field: fieldPath([...path, key]),
      value: shownValue(valueAt(input, [...path, key])),
      allowed: 'no such field; see the schema of the file',
    }));
  }
  const nested = issue.code === 'invalid_union' && issue.message === 'Invalid input' ? issue.errors : [];
  const [closest] = nested.toSorted((a, b) => a.length - b.length);
  if (closest && closest.length > 0) return closest.flatMap((inner) => problemsOf(file, input, inner, path));
  const value = valueAt(input, path);
  return [{ file, field: fieldPath(path), value: shownValue(value), allowed: allowedBy(issue) }];
}

function allowedBy(issue: Issue): string {
  switch (issue.code) {
    case 'invalid_type':
      return issue.message.startsWith('Invalid input: expected') ? article(issue.expected) : issue.message;
    case 'invalid_value':
      return `one of: ${issue.values.map(String).join(', ')}`;
    case 'invalid_union':
      return issue.message === 'Invalid input' && 'options' in issue
        ? 'one of the allowed kinds'
        : issue.message;
    case 'too_small':
      return `at least ${issue.minimum}${countedIn(issue.origin)}`;
    case 'too_big':
      return `at most ${issue.maximum}${countedIn(issue.origin)}`;
    default:
      return issue.message;
  }
}

function article(expected: string): string {
  const names: Readonly<Record<string, string>> = {
    string: 'text',
    object: 'an object',
    array: 'a list',
    boolean: 'true or false',
    number: 'a number',
    int: 'a whole number',
  };
  return names[expected] ?? expected;
}

function countedIn(origin: string): string {
  if (origin === 'array') return ' entries';
  return origin === 'string' ? ' characters' : '';
}

function valueAt(input: unknown, path: readonly PropertyKey[]): unknown {
  return path.reduce<unknown>(
    (value, key) =>
      typeof value === 'object' && value !== null ? (value as Record<PropertyKey, unknown>)[key] : undefined,
    input,
  );
}
