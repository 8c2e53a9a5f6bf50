import type { KeyboardEvent } from 'react';

const KEYS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End'];

/** Arrow keys go from booking to booking: along a row by time, between rows to the nearest in time. */
export function moveBetweenBookings(event: KeyboardEvent): void {
  const current = event.currentTarget;
  if (!KEYS.includes(event.key) || !(current instanceof SVGAElement)) return;
  event.preventDefault();
  const all = [...(current.ownerSVGElement?.querySelectorAll<SVGAElement>('a.booking') ?? [])];
  const next = neighbour(all, current, event.key);
  if (!next) return;
  current.setAttribute('tabindex', '-1');
  next.setAttribute('tabindex', '0');
  next.focus();
}

function neighbour(all: readonly SVGAElement[], current: SVGAElement, key: string): SVGAElement | undefined {
  const row = all.filter((booking) => rowOf(booking) === rowOf(current));
  const at = row.indexOf(current);
  switch (key) {
    case 'Home':
      return row[0];
    case 'End':
      return row.at(-1);
    case 'ArrowLeft':
      return row[at - 1];
    case 'ArrowRight':
      return row[at + 1];
    default:
      return nearestInRow(all, current, key === 'ArrowDown' ? 1 : -1);
  }
}

function nearestInRow(
  all: readonly SVGAElement[],
  current: SVGAElement,
  by: 1 | -1,
): SVGAElement | undefined {
  const rows = [...new Set(all.map(rowOf))].toSorted((a, b) => a - b);
  const target = rows[rows.indexOf(rowOf(current)) + by];
  const distance = (booking: SVGAElement): number => Math.abs(startOf(booking) - startOf(current));
  return all.filter((booking) => rowOf(booking) === target).toSorted((a, b) => distance(a) - distance(b))[0];
}

const rowOf = (booking: SVGAElement): number => Number(booking.dataset['row']);
const startOf = (booking: SVGAElement): number => Number(booking.dataset['from']);
