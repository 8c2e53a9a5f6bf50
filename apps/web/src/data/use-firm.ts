import type { Firm } from '@brimline/firm';
import { useEffect, useState } from 'react';
import { words } from '../words.ts';
import { type Answer, askJson } from './ask.ts';

/** The registers as the server holds them; null while they are on their way. */
export function useFirm(): Answer<Firm> | null {
  const [answer, setAnswer] = useState<Answer<Firm> | null>(null);
  useEffect(() => {
    let isHere = true;
    void askJson<Firm>(words.whatIf.registers, 'api/firm').then((next) => {
      if (isHere) setAnswer(next);
    });
    return () => {
      isHere = false;
    };
  }, []);
  return answer;
}
