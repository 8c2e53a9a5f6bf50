/** Mean width of a character of an 11 px mark at the narrow width, measured on mixed lower-case text. */
const CHARACTER_PX = 5.2;

export function textWidth(text: string): number {
  return text.length * CHARACTER_PX;
}

export interface Label {
  readonly x: number;
  readonly text: string;
}

export interface LabelInRow extends Label {
  readonly row: number;
}

/**
 * Puts centred labels in rows so that none overlap: each goes in the first row where it fits, and is left out when it
 * fits in none. Earlier labels go first, so give the important ones first; those of `before` already stand.
 */
export function labelsInRows(
  labels: readonly Label[],
  rows: number,
  space_px = 6,
  before: readonly LabelInRow[] = [],
): LabelInRow[] {
  const placed = [...before];
  for (const label of labels) {
    const isFree = (row: number): boolean =>
      placed.every(
        (other) =>
          other.row !== row ||
          Math.abs(other.x - label.x) >= (textWidth(other.text) + textWidth(label.text)) / 2 + space_px,
      );
    const row = Array.from({ length: rows }, (_, index) => index).find(isFree);
    if (row !== undefined && !placed.some(({ x, text }) => x === label.x && text === label.text)) {
      placed.push({ ...label, row });
    }
  }
  return placed;
}

/** Breaks a name into lines no wider than the bar that it names; null when it can't be done in `most` lines. */
export function linesWithin(name: string, width_px: number, most: number): readonly string[] | null {
  const lines: string[] = [];
  for (const word of name.split(' ')) {
    const last = lines.at(-1);
    if (last !== undefined && textWidth(`${last} ${word}`) <= width_px) {
      lines[lines.length - 1] = `${last} ${word}`;
    } else lines.push(word);
  }
  return lines.length <= most && lines.every((line) => textWidth(line) <= width_px) ? lines : null;
}

export interface SwapLabel {
  readonly x: number;
  /** Numbers of the cylinders connected, counted from one. */
  readonly text: string;
  readonly at: readonly number[];
}

/** Swaps that would stand closer than 13 px share one label, such as 2–4. */
export function swapLabels(swaps: readonly { readonly x: number; readonly number: number }[]): SwapLabel[] {
  const groups: { x: number; number: number }[][] = [];
  for (const swap of swaps.toSorted((a, b) => a.x - b.x)) {
    const group = groups.at(-1);
    if (group && swap.x - group.at(-1)!.x < 13) group.push(swap);
    else groups.push([swap]);
  }
  return groups.map((group) => {
    const [first, last] = [group[0]!, group.at(-1)!];
    const text = group.length === 1 ? String(first.number) : `${first.number}–${last.number}`;
    return { x: (first.x + last.x) / 2, text, at: group.map(({ x }) => x) };
  });
}
