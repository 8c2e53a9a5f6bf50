import { useSyncExternalStore } from 'react';

export type Route =
  | { readonly page: 'week' }
  | { readonly page: 'job'; readonly id: string }
  | { readonly page: 'what if'; readonly id: string | null }
  | { readonly page: 'calculators'; readonly name: string | null };

/** Reads the page out of the address's fragment; anything unknown is the week. */
export function routeOf(hash: string): Route {
  const [page, rest] = hash.replace(/^#\/?/, '').split('/');
  const value = rest ? decodeText(rest) : null;
  if (page === 'job' && value) return { page: 'job', id: value };
  if (page === 'what-if') return { page: 'what if', id: value };
  if (page === 'calculators') return { page: 'calculators', name: value };
  return { page: 'week' };
}

function decodeText(text: string): string {
  try {
    return decodeURIComponent(text);
  } catch {
    return text;
  }
}

export const weekLink = '#/week';
export const jobLink = (id: string): string => `#/job/${encodeURIComponent(id)}`;
export const whatIfLink = (id: string | null): string =>
  id === null ? '#/what-if' : `#/what-if/${encodeURIComponent(id)}`;
export const calculatorLink = (name: string | null): string =>
  name === null ? '#/calculators' : `#/calculators/${encodeURIComponent(name)}`;

function onChange(listener: () => void): () => void {
  window.addEventListener('hashchange', listener);
  return () => window.removeEventListener('hashchange', listener);
}

export function useHash(): string {
  return useSyncExternalStore(onChange, () => window.location.hash);
}
