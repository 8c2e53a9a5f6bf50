import { useMemo } from 'react';
import { SmallCurve, smallScale } from '../components/small-curve.tsx';
import { useWidth } from '../components/use-width.ts';
import { spanText } from '../format/measures.ts';
import { words } from '../words.ts';
import type { DrawnWay } from './work-out.ts';

const GAP_PX = 20;
const LEAST_PX = 150;

/** The ways beside each other as small curves, all on one scale. */
export function DrawnWays({ ways }: { readonly ways: readonly DrawnWay[] }) {
  const [box, width] = useWidth<HTMLDivElement>();
  const columns = Math.max(1, Math.min(ways.length, Math.floor((width + GAP_PX) / (LEAST_PX + GAP_PX))));
  const each = (width - GAP_PX * (columns - 1)) / columns;
  const scale = useMemo(() => {
    if (width === 0 || ways.length === 0) return null;
    return smallScale(
      ways.map(({ estimate }) => estimate),
      each,
    );
  }, [ways, width, each]);
  const { whatIf: say } = words;
  return (
    <section aria-labelledby="drawn-ways-title">
      <h2 id="drawn-ways-title">
        {say.drawnWays} <span className="small soft">{say.drawnNote}</span>
      </h2>
      <div ref={box}>
        {scale && (
          <ol className="drawn-ways" style={{ gridTemplateColumns: `repeat(${columns}, minmax(0, 1fr))` }}>
            {ways.map(({ way, estimate }) => (
              <li key={`${way.label} ${way.elapsed_s}`} className={way.chosen ? 'chosen' : undefined}>
                <p>
                  {way.label}
                  {way.chosen && <span className="small soft"> {words.job.way.chosen}</span>}
                </p>
                <SmallCurve
                  estimate={estimate}
                  scale={scale}
                  spoken={say.small(way.label, spanText(estimate.elapsed.p50_s))}
                />
                <p>
                  <strong>{spanText(estimate.elapsed.p50_s)}</strong> P50,{' '}
                  {words.job.p80(spanText(estimate.elapsed.p80_s))}
                </p>
                <p className="small soft">
                  {spanText(estimate.attended.p50_s)} {words.job.personHours}, {way.limitedBy}
                </p>
              </li>
            ))}
          </ol>
        )}
      </div>
    </section>
  );
}
