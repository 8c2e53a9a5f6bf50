import { type RefObject, useEffect, useLayoutEffect, useRef, useState } from 'react';
import { flushSync } from 'react-dom';

/** Width that drawings take on a printed Letter or A4 sheet. */
const PRINT_PX = 700;

/** The width that an element has on the screen, in whole pixels; a page's width while it is printed. */
export function useWidth<Kind extends HTMLElement>(): readonly [RefObject<Kind | null>, number] {
  const element = useRef<Kind | null>(null);
  const [width, setWidth] = useState(0);
  const isPrinting = usePrinting();
  useLayoutEffect(() => {
    const target = element.current;
    if (!target) return;
    const measure = (): void => {
      const measured = Math.floor(target.clientWidth);
      if (measured > 0) setWidth(measured);
    };
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(target);
    return () => observer.disconnect();
  }, []);
  return [element, isPrinting ? PRINT_PX : width];
}

/** Is the page laid out for paper? */
export function usePrinting(): boolean {
  const [isPrinting, setPrinting] = useState(() => window.matchMedia('print').matches);
  useEffect(() => {
    const media = window.matchMedia('print');
    const follow = (): void => setPrinting(media.matches);
    const begin = (): void => flushSync(() => setPrinting(true));
    const end = (): void => setPrinting(false);
    media.addEventListener('change', follow);
    window.addEventListener('beforeprint', begin);
    window.addEventListener('afterprint', end);
    return () => {
      media.removeEventListener('change', follow);
      window.removeEventListener('beforeprint', begin);
      window.removeEventListener('afterprint', end);
    };
  }, []);
  return isPrinting;
}
