import type { WeekPlan } from '@brimline/planning';
import { type RefObject, useEffect, useMemo, useRef, useState } from 'react';
import { Legend } from '../components/marks.tsx';
import { usePrinting, useWidth } from '../components/use-width.ts';
import { WeekChart } from '../components/week-chart.tsx';
import { clockChanges } from '../drawing/clock-change.ts';
import { daysOf } from '../drawing/even-clock.ts';
import { type WeekClock, weekClock, weekLayout, zonesOf } from '../drawing/week-layout.ts';
import { dayText, localDayText, zoneName, zonePlace } from '../format/clock.ts';
import { words } from '../words.ts';
import { BookingsTable, PassagesTable } from './week-bookings-table.tsx';
import { JobsTable, RefusedJobs } from './week-jobs-table.tsx';
import { WeekEnd } from './week-end.tsx';

interface Props {
  readonly plan: WeekPlan;
  readonly isWorking: boolean;
  readonly planAgain: () => Promise<void>;
}

type Zoom = 'day' | 'week' | 'all';
const ZOOMS: readonly Zoom[] = ['day', 'week', 'all'];

/** Who, where, with what, when, attended or not. */
export function WeekPage({ plan, isWorking, planAgain }: Props) {
  return (
    <>
      <div className="page-head">
        <div>
          <span className="label">{words.week.summary(plan.jobs.length, plan.refused.length)}</span>
          <h1>{words.week.title(localDayText(plan.planFrom), plan.planDays)}</h1>
        </div>
        <div className="actions">
          <button type="button" disabled={isWorking} onClick={() => void planAgain()}>
            {words.state.planAgain}
          </button>
          <a className="button" href="api/plan/timeline.xlsx" download>
            {words.week.timeline}
          </a>
        </div>
      </div>
      {plan.jobs.length > 0 && <WeekDrawn plan={plan} />}
      <RefusedJobs plan={plan} />
      {plan.jobs.length > 0 && (
        <>
          <JobsTable plan={plan} />
          <p className="small soft">{words.week.siteClock}</p>
          <BookingsTable plan={plan} />
          <PassagesTable plan={plan} />
        </>
      )}
    </>
  );
}

function WeekDrawn({ plan }: { readonly plan: WeekPlan }) {
  const zones = useMemo(() => zonesOf(plan), [plan]);
  const [zone, setZone] = useState(zones[0]!);
  const [box, available] = useWidth<HTMLDivElement>();
  const [chosenZoom, setZoom] = useState<Zoom>(() => (window.innerWidth < 700 ? 'day' : 'week'));
  const [allGear, setAllGear] = useState(false);
  const isPrinting = usePrinting();
  const zoom = isPrinting ? 'all' : chosenZoom;
  const names = available < 560 ? NAMES_NARROW_PX : NAMES_PX;
  const clock = useMemo(() => weekClock(plan, zone), [plan, zone]);
  const layout = useMemo(() => weekLayout(plan, allGear), [plan, allGear]);
  const view_px = available - names;
  const width = widthAt(zoom, clock, view_px);
  const scroller = useMiddleKept(clock, width);
  const turn = (by: 1 | -1) => () => scroller.current?.scrollBy({ left: by * view_px });
  return (
    <section ref={box} aria-label={words.week.drawing} className="week-drawn">
      <div className="week-controls no-print">
        <Zooms zoom={zoom} choose={setZoom} />
        <button type="button" disabled={zoom === 'all'} onClick={turn(-1)}>
          {words.week.earlier}
        </button>
        <button type="button" disabled={zoom === 'all'} onClick={turn(1)}>
          {words.week.later}
        </button>
        <ZoneChoice zones={zones} zone={zone} choose={setZone} at_ms={clock.from_ms} />
      </div>
      <ClockNote clock={clock} zone={zone} />
      <WeekEnd plan={plan} timeZone={zone} />
      <Legend
        items={[
          'attended',
          'watched',
          'unattended',
          'travel',
          'cleanOut',
          'inChiller',
          'inCylinders',
          'stays',
        ]}
      />
      {available > 0 && (
        <WeekChart
          plan={plan}
          layout={layout}
          clock={clock}
          timeZone={zone}
          width={width}
          scroller={scroller}
          isPrinting={isPrinting}
        />
      )}
      {layout.idleGear > 0 && (
        <button
          type="button"
          className="no-print"
          aria-expanded={allGear}
          onClick={() => setAllGear(!allGear)}
        >
          {allGear ? words.week.usedGear : words.week.allGear(layout.idleGear)}
        </button>
      )}
    </section>
  );
}

const NAMES_PX = 196;
const NAMES_NARROW_PX = 88;
const DAY_MS = 86_400_000;
const DAYS_SHOWN: Readonly<Record<'day' | 'week', number>> = { day: 1, week: 7 };

function widthAt(zoom: Zoom, { from_ms, to_ms }: WeekClock, view_px: number): number {
  const days = (to_ms - from_ms) / DAY_MS;
  const shown = zoom === 'all' ? days : Math.min(days, DAYS_SHOWN[zoom]);
  return Math.round((view_px * days) / shown);
}

/** Keeps what is in the middle of the view there when the zoom or the zone changes. */
function useMiddleKept(clock: WeekClock, width: number): RefObject<HTMLDivElement | null> {
  const scroller = useRef<HTMLDivElement>(null);
  const middle_ms = useRef<number | null>(null);
  useEffect(() => {
    const element = scroller.current;
    if (!element || width <= 0) return;
    const span_ms = clock.to_ms - clock.from_ms;
    if (middle_ms.current !== null) {
      const middle = ((middle_ms.current - clock.from_ms) / span_ms) * width;
      element.scrollLeft = Math.max(0, middle - element.clientWidth / 2);
    }
    const remember = (): void => {
      middle_ms.current = clock.from_ms + ((element.scrollLeft + element.clientWidth / 2) / width) * span_ms;
    };
    element.addEventListener('scroll', remember);
    return () => element.removeEventListener('scroll', remember);
  }, [clock, width]);
  return scroller;
}

interface ZoomsProps {
  readonly zoom: Zoom;
  readonly choose: (zoom: Zoom) => void;
}

function Zooms({ zoom, choose }: ZoomsProps) {
  return (
    <fieldset className="zooms">
      <legend className="hidden-words">{words.week.zoom}</legend>
      {ZOOMS.map((one) => (
        <label key={one}>
          <input type="radio" name="zoom" checked={zoom === one} onChange={() => choose(one)} />
          <span>{words.week.zooms[one]}</span>
        </label>
      ))}
    </fieldset>
  );
}

interface ZoneProps {
  readonly zones: readonly string[];
  readonly zone: string;
  readonly choose: (zone: string) => void;
  readonly at_ms: number;
}

function ZoneChoice({ zones, zone, choose, at_ms }: ZoneProps) {
  return (
    <label className="zone">
      <span className="soft">{words.week.zone}</span>
      <select value={zone} onChange={(event) => choose(event.target.value)}>
        {zones.map((one) => (
          <option key={one} value={one}>
            {zonePlace(one)}, {zoneName(at_ms, one)}
          </option>
        ))}
      </select>
    </label>
  );
}

/** Says where a change of the clock falls into the days shown. */
function ClockNote({ clock, zone }: { readonly clock: WeekClock; readonly zone: string }) {
  const changes = clockChanges(daysOf(clock.from_ms, clock.to_ms, zone));
  if (changes.length === 0) return null;
  const text = changes.map(
    ({ day, hours }) =>
      `${dayText((day.from_ms + day.to_ms) / 2, zone)}, ${hours} h (${zoneName(day.from_ms, zone)} – ${zoneName(day.to_ms, zone)})`,
  );
  return <p className="small soft">{words.week.zoneChange(text.join('; '))}</p>;
}
