import type { Estimate } from '@brimline/estimating';
import { percentText, spanText } from '../format/measures.ts';
import { words } from '../words.ts';

/** Below this share a driver moves nothing that anybody would notice. */
const LEAST_SHARE = 0.01;
const BAR_PX = 160;

/** What makes the hours spread, largest first, and the tests that may have to be repeated. */
export function JobDrivers({ risk }: Pick<Estimate, 'risk'>) {
  const shown = risk.drivers.filter(
    ({ elapsedShare, attendedShare }) => Math.max(elapsedShare, attendedShare) >= LEAST_SHARE,
  );
  if (shown.length === 0) return null;
  const { driver: head } = words.job;
  return (
    <section aria-labelledby="drivers-title">
      <h2 id="drivers-title">
        {words.job.drivers} <span className="small soft">{words.job.driversNote}</span>
      </h2>
      <table>
        <thead>
          <tr>
            <th scope="col">{head.what}</th>
            <th scope="col" className="number">
              {head.elapsed}
            </th>
            <th scope="col" className="number">
              {head.attended}
            </th>
          </tr>
        </thead>
        <tbody>
          {shown.map(({ label, elapsedShare, attendedShare }) => (
            <tr key={label}>
              <th scope="row">{label}</th>
              <td className="number">
                {percentText(elapsedShare)}
                <svg className="drawing bar" width={BAR_PX} height="4" aria-hidden="true">
                  <rect className="ink" width={BAR_PX * elapsedShare} height="3" />
                </svg>
              </td>
              <td className="number">{percentText(attendedShare)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {risk.loops.map(({ test, probability, each, source }) => (
        <p key={test} className="small soft">
          {words.job.loop(test, percentText(probability), spanText(each.likely_s))} {source}.
        </p>
      ))}
    </section>
  );
}
