/** Rows under their heads in columns as wide as they need; the columns named are set to the right. */
export function textTable(
  heads: readonly string[],
  rows: readonly (readonly string[])[],
  right: readonly number[],
): string[] {
  const widths = heads.map((head, index) =>
    Math.max(head.length, ...rows.map((cells) => (cells[index] ?? '').length)),
  );
  const line = (cells: readonly string[]): string =>
    cells
      .map((cell, index) =>
        right.includes(index) ? cell.padStart(widths[index]!) : cell.padEnd(widths[index]!),
      )
      .join('  ')
      .trimEnd();
  return [heads, ...rows].map(line);
}
