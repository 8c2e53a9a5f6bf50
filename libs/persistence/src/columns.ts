import type { ColumnOptions } from 'typeorm';

/** An instant as milliseconds since 1970; numbers pass through, so that query operators work. */
export function instant(name: string): ColumnOptions {
  return {
    name,
    type: 'integer',
    transformer: {
      to: (value: Date | number | undefined) => (value instanceof Date ? value.getTime() : value),
      from: (value: number) => new Date(value),
    },
  };
}

/** Facts as JSON text: written and read whole, never searched inside. */
export function facts(name = 'facts'): ColumnOptions {
  return { name, type: 'simple-json' };
}
