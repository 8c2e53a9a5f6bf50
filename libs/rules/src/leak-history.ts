import { CalculationInputError, choiceField, objectListField } from '@brimline/quantities';
import { dayField, notNegativeField, positiveField } from './calculation-fields.ts';
import { additionsBefore, type LeakHistory } from './leak-rate.ts';

type Input = Readonly<Record<string, unknown>>;

export const LEAK_METHODS = ['annualizing', 'rolling'] as const;

interface Addition {
  readonly daysAgo: number;
  readonly added_kg: number;
}

/** Entries with `daysAgo`, or with `date` beside a field `on`; newest first. */
function additionsOf(input: Input): readonly Addition[] {
  const entries = objectListField(input, 'history');
  const additions = entries.map((entry): Addition => {
    const added_kg = notNegativeField(entry, 'added_kg');
    if (entry['daysAgo'] !== undefined) return { daysAgo: notNegativeField(entry, 'daysAgo'), added_kg };
    const [dated] = additionsBefore(dayField(input, 'on'), [{ date: dayField(entry, 'date'), added_kg }]);
    return dated ?? { daysAgo: 0, added_kg };
  });
  return additions.toSorted((a, b) => a.daysAgo - b.daysAgo);
}

/** The last addition, and the days from the one before it. */
function lastInterval(input: Input): LeakHistory {
  const [last, before] = additionsOf(input);
  if (!last || !before) {
    throw new CalculationInputError(
      'history',
      input['history'],
      'at least two additions, or added_kg with days',
    );
  }
  return {
    method: 'annualizing',
    added_kg: last.added_kg,
    daysSinceLastAddition: before.daysAgo - last.daysAgo,
  };
}

/** Reads what was added, and when, from a calculation's input. */
export function leakHistoryField(input: Input): LeakHistory {
  const method = choiceField(input, 'method', LEAK_METHODS);
  const hasHistory = input['history'] !== undefined;
  if (method === 'rolling') {
    const additions = hasHistory
      ? additionsOf(input)
      : [{ daysAgo: 0, added_kg: notNegativeField(input, 'added_kg') }];
    return { method, additions };
  }
  if (hasHistory) return lastInterval(input);
  return {
    method,
    added_kg: notNegativeField(input, 'added_kg'),
    daysSinceLastAddition: positiveField(input, 'days'),
  };
}
