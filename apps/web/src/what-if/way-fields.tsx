import type { Firm, GearKind, SetupWishes } from '@brimline/firm';
import { words } from '../words.ts';
import { Choice } from './choice.tsx';
import type { Draft } from './draft.ts';

interface Props {
  readonly firm: Firm;
  readonly draft: Draft;
  readonly change: (draft: Draft) => void;
}

const BEST = 'best';

/** How the work is done: each is left to the engine, or held to one way. */
export function WayFields({ firm, draft, change }: Props) {
  const { whatIf: say } = words;
  const { wishes } = draft;
  const best = [BEST, say.best] as const;
  const wish = <Name extends keyof SetupWishes>(name: Name, value: SetupWishes[Name] | undefined): void => {
    const { [name]: _dropped, ...others } = wishes;
    change({ ...draft, wishes: value === undefined ? others : { ...others, [name]: value } });
  };
  const tags = (kind: GearKind, use?: 'transfer') =>
    firm.gear
      .filter((unit) => unit.kind === kind && (unit.kind !== 'hose set' || unit.use === use))
      .map(({ id, description }) => [id, `${id}, ${description}`] as const);
  return (
    <fieldset className="way-fields">
      <legend>{say.ways}</legend>
      <Choice
        label={say.method}
        value={wishes.method ?? BEST}
        options={[best, ['push-pull', 'push-pull'], ['direct', 'direct']]}
        change={(value) => wish('method', value === BEST ? undefined : value)}
      />
      <Choice
        label={say.cores}
        value={wishes.coresRemoved === undefined ? BEST : wishes.coresRemoved ? 'out' : 'in'}
        options={[best, ['out', say.out], ['in', say.in]]}
        change={(value) => wish('coresRemoved', value === BEST ? undefined : value === 'out')}
      />
      <Choice
        label={say.cooler}
        value={wishes.coolerBypassed === undefined ? BEST : wishes.coolerBypassed ? 'bypassed' : 'in'}
        options={[best, ['bypassed', say.bypassed], ['in', say.leftIn]]}
        change={(value) => wish('coolerBypassed', value === BEST ? undefined : value === 'bypassed')}
      />
      <Choice
        label={say.machine}
        value={wishes.machineIds?.[0] ?? BEST}
        options={[best, ...tags('recovery machine')]}
        change={(value) => wish('machineIds', value === BEST ? undefined : [value])}
      />
      <Choice
        label={say.hoses}
        value={wishes.hoseSetId ?? BEST}
        options={[best, ...tags('hose set', 'transfer')]}
        change={(value) => wish('hoseSetId', value === BEST ? undefined : value)}
      />
      <Choice
        label={say.pump}
        value={wishes.pumpIds?.[0] ?? BEST}
        options={[best, ...tags('vacuum pump')]}
        change={(value) => wish('pumpIds', value === BEST ? undefined : [value])}
      />
    </fieldset>
  );
}
