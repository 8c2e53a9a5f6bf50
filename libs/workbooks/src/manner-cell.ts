import type { BookedPhase } from '@brimline/planning';
import type { Cell } from 'exceljs';
import { ATTENDED, CYLINDER, CYLINDER_LINE, face, INK, SOFT, solid } from './sheet-style.ts';

export type Use = BookedPhase['manner'] | 'held' | 'travel' | 'clean-out';

const SIGNS: Readonly<
  Record<Use, { readonly text: string; readonly ink: string; readonly ground: string | null }>
> = {
  attended: { text: '', ink: INK, ground: INK },
  watched: { text: '|', ink: INK, ground: ATTENDED },
  unattended: { text: '·', ink: INK, ground: null },
  held: { text: '/', ink: CYLINDER_LINE, ground: CYLINDER },
  travel: { text: '>', ink: SOFT, ground: null },
  'clean-out': { text: 'x', ink: SOFT, ground: null },
};

/** One cell of a ribbon: solid, ticked, dotted, hatched; told by a sign, never by colour alone. */
export function drawManner(cell: Cell, use: Use): void {
  const { text, ink, ground } = SIGNS[use];
  if (ground !== null) cell.fill = solid(ground);
  if (text === '') return;
  cell.value = text;
  cell.font = face(7, ink, true);
  cell.alignment = { horizontal: 'center', vertical: 'middle' };
}
