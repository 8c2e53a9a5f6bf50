import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkPlan } from '../check/check-plan.ts';
import type { SolveResult } from '../model/plan.ts';
import type { Activity, Mode, SchedulingProblem, Unit } from '../model/problem.ts';
import { solve } from './solve.ts';

const DAY = 24 * 60;

function mode(duration_min: number, needs: Mode['needs'] = [], amounts: Mode['amounts'] = []): Mode {
  return { duration_min, needs, amounts, consumes: [] };
}

function need(eligible: string[], skills: string[] = [], count = 1): Mode['needs'][number] {
  return { name: skills.join(' ') || 'anyone', eligible, count, skills, keptInBreaks: false };
}

function activity(id: string, changes: Partial<Activity> = {}): Activity {
  return {
    id,
    jobId: id.split('/')[0]!,
    place: null,
    calendarIds: [],
    breakable: false,
    minimumPiece_min: 1,
    release_min: 0,
    deadline_min: null,
    due_min: null,
    state: null,
    modes: [mode(60)],
    pinned: null,
    ...changes,
  };
}

function unit(id: string, changes: Partial<Unit> = {}): Unit {
  return {
    id,
    kind: 'person',
    calendarId: null,
    basePlace: null,
    returnsToBase: false,
    skills: [],
    cleanOut: null,
    ...changes,
  };
}

function problem(changes: Partial<SchedulingProblem>): SchedulingProblem {
  return {
    horizon_min: 5 * DAY,
    calendars: [],
    places: [],
    travel_min: [],
    units: [],
    capacities: [],
    budgets: [],
    activities: [],
    lags: [],
    holds: [],
    ...changes,
  };
}

function after(from: string, to: string, minimum_min = 0, maximum_min: number | null = null) {
  return { from, fromEnd: 'end', to, toEnd: 'start', minimum_min, maximum_min } as const;
}

function solved(changes: Partial<SchedulingProblem>, schedules = 20): SolveResult {
  const given = problem(changes);
  const result = solve(given, { seed: 7, schedules });
  expect(checkPlan(given, result.plan)).toEqual([]);
  return result;
}

function spanOf(result: SolveResult, id: string): [number, number] {
  const booking = result.plan.bookings.find(({ activityId }) => activityId === id)!;
  return [booking.start_min, booking.end_min];
}

// Every expected minute below is arithmetic done by hand on the two or three activities of the case.
describe('each constraint', () => {
  it('keeps one person on one activity at a time', () => {
    const result = solved({
      units: [unit('ann')],
      activities: ['a/1', 'b/1'].map((id) => activity(id, { modes: [mode(60, [need(['ann'])])] })),
    });
    expect(result.plan.objective.makespan_min).toBe(120);
    expect(result.plan.lowerBound_min).toBe(120);
  });

  it('asks for a certificate that is valid at the end, and says when nobody has it', () => {
    const ann = unit('ann', { skills: [{ name: 'gas', validUntil_min: 100 }] });
    const job = (release_min: number) => [
      activity('a/1', { release_min, modes: [mode(60, [need(['ann'], ['gas'])])] }),
    ];
    expect(spanOf(solved({ units: [ann], activities: job(40) }), 'a/1')).toEqual([40, 100]);
    const refused = solved({ units: [ann], activities: job(41) });
    expect(refused.unplaced[0]?.reasons[0]?.code).toBe('no-skill');
  });

  it('needs two different people for a crew of two', () => {
    const crew = { modes: [mode(60, [need(['ann'], []), { ...need(['ann', 'bob']), name: 'second' }])] };
    const [both] = solved({ units: [unit('ann'), unit('bob')], activities: [activity('a/1', crew)] }).plan
      .bookings;
    expect(both?.units.map(({ unitIds }) => unitIds)).toEqual([['ann'], ['bob']]);
    const alone = solved({
      units: [unit('ann')],
      activities: [activity('a/1', { modes: [mode(60, [need(['ann'], [], 2)])] })],
    });
    expect(alone.unplaced[0]?.reasons[0]?.code).toBe('no-skill');
  });

  it('keeps an unbreakable activity in one open span and pauses a breakable one', () => {
    const calendars = [
      {
        id: 'site',
        open: [
          [0, 50],
          [100, 200],
        ] as [number, number][],
      },
    ];
    const whole = activity('a/1', { calendarIds: ['site'] });
    expect(spanOf(solved({ calendars, activities: [whole] }), 'a/1')).toEqual([100, 160]);
    expect(spanOf(solved({ calendars, activities: [{ ...whole, breakable: true }] }), 'a/1')).toEqual([
      0, 110,
    ]);
    const tooLong = solved({ calendars, activities: [{ ...whole, modes: [mode(120)] }] });
    expect(tooLong.unplaced[0]?.reasons[0]?.code).toBe('window-too-short');
  });

  it('lets a person go home in a pause but keeps gear there', () => {
    const calendars = [
      {
        id: 'shift',
        open: [
          [0, 60],
          [1000, 1100],
        ] as [number, number][],
      },
    ];
    const units = [unit('ann', { calendarId: 'shift' }), unit('pump')];
    const long = activity('a/1', {
      breakable: true,
      modes: [mode(100, [need(['ann']), { ...need(['pump']), name: 'pump', keptInBreaks: true }])],
    });
    const other = activity('b/1', { release_min: 1, modes: [mode(10, [need(['pump'])])] });
    const result = solved({ calendars, units, activities: [long, other] });
    expect(spanOf(result, 'a/1')).toEqual([0, 1040]);
    expect(spanOf(result, 'b/1')[0]).toBe(1040);
  });

  it('keeps shortest and longest lags, moving the earlier activity when the later must wait', () => {
    const calendars = [{ id: 'late', open: [[500, 600]] as [number, number][] }];
    const activities = [activity('a/1'), activity('a/2', { calendarIds: ['late'] })];
    const result = solved({ calendars, activities, lags: [after('a/1', 'a/2', 10, 30)] });
    const [first, second] = [spanOf(result, 'a/1'), spanOf(result, 'a/2')];
    expect(second[0] - first[1]).toBeGreaterThanOrEqual(10);
    expect(second[0] - first[1]).toBeLessThanOrEqual(30);
    const morning = [
      { id: 'late', open: [[500, 600]] as [number, number][] },
      { id: 'early', open: [[0, 100]] as [number, number][] },
    ];
    const torn = [activity('a/1', { calendarIds: ['early'] }), activities[1]!];
    expect(
      solved({ calendars: morning, activities: torn, lags: [after('a/1', 'a/2', 0, 30)] }).unplaced,
    ).toHaveLength(1);
  });

  it('keeps release and deadline', () => {
    expect(spanOf(solved({ activities: [activity('a/1', { release_min: 30 })] }), 'a/1')).toEqual([30, 90]);
    const late = solved({ activities: [activity('a/1', { release_min: 30, deadline_min: 89 })] });
    expect(late.unplaced[0]?.reasons[0]?.code).toBe('window-too-short');
  });

  const places = {
    places: ['base', 'x', 'y'],
    travel_min: [
      [0, 30, 40],
      [30, 0, 20],
      [40, 20, 0],
    ],
  };

  it('leaves time to come, to go on and to go home', () => {
    const calendars = [{ id: 'shift', open: [[0, 300]] as [number, number][] }];
    const units = [unit('ann', { calendarId: 'shift', basePlace: 'base', returnsToBase: true })];
    const at = (id: string, place: string, duration_min: number) =>
      activity(id, { place, modes: [mode(duration_min, [need(['ann'])])] });
    const result = solved({
      ...places,
      calendars,
      units,
      activities: [at('a/1', 'x', 100), at('b/1', 'y', 100)],
    });
    // 30 out + 100 + 20 on + 100 + 40 home = 290 of 300; the other way round the same.
    expect(result.unplaced).toEqual([]);
    expect(result.plan.objective.travel_min).toBe(90);
    const tight = solved({
      ...places,
      calendars,
      units,
      activities: [at('a/1', 'x', 111), at('b/1', 'y', 100)],
    });
    expect(tight.unplaced).toHaveLength(1);
  });

  it('moves gear from place to place and cleans it between refrigerants', () => {
    const units = [unit('rm', { basePlace: 'base', cleanOut: { minutes: 45, initialState: 'R-134a' } })];
    const using = (id: string, place: string, state: string) =>
      activity(id, { place, state, modes: [mode(60, [need(['rm'])])] });
    const result = solved({
      ...places,
      units,
      activities: [using('a/1', 'x', 'R-134a'), using('b/1', 'y', 'R-410A')],
    });
    // By hand: 30 to x, 60 of work, 20 to y, 45 to clean, 60 of work = 215.
    expect(result.plan.objective.makespan_min).toBe(215);
    expect(result.plan.objective.cleanOut_min).toBe(45);
  });

  it('holds cylinders from one activity to another', () => {
    const units = [unit('c1'), unit('c2'), unit('c3')];
    const hold = (job: string) => ({
      id: `${job}/cylinders`,
      jobId: job,
      fromActivity: `${job}/1`,
      toActivity: `${job}/2`,
      eligible: ['c1', 'c2', 'c3'],
      count: 2,
      state: null,
    });
    const activities = ['a/1', 'a/2', 'b/1', 'b/2'].map((id) => activity(id));
    const lags = [after('a/1', 'a/2', 100), after('b/1', 'b/2', 100)];
    const result = solved({ units, activities, lags, holds: [hold('a'), hold('b')] });
    expect(result.plan.objective.makespan_min).toBe(440);
    const tooMany = solved({ units, activities, lags, holds: [{ ...hold('a'), count: 4 }] });
    expect(tooMany.unplaced[0]?.reasons[0]?.code).toBe('units-held-elsewhere');
  });

  it('keeps counted capacities', () => {
    const amounts = [{ capacityId: 'power', amount: 2 }];
    const activities = ['a/1', 'b/1', 'c/1'].map((id) => activity(id, { modes: [mode(60, [], amounts)] }));
    const result = solved({ capacities: [{ id: 'power', amount: 4 }], activities });
    expect(result.plan.objective.makespan_min).toBe(120);
  });

  it('takes the mode that ends first', () => {
    expect(spanOf(solved({ activities: [activity('a/1', { modes: [mode(60), mode(40)] })] }), 'a/1')).toEqual(
      [0, 40],
    );
  });

  it('keeps a budget over the modes of all activities, and says when it can not', () => {
    const consumes = (amount: number) => [{ budgetId: 'gas', amount }];
    const modes = [
      { ...mode(40), consumes: consumes(6) },
      { ...mode(60), consumes: consumes(2) },
    ];
    const activities = ['a/1', 'b/1'].map((id) => activity(id, { modes }));
    const result = solved({ budgets: [{ id: 'gas', amount: 8 }], activities });
    expect(result.unplaced).toEqual([]);
    expect(result.plan.bookings.map((booking) => booking.mode).toSorted()).toEqual([0, 1]);
    const poor = solved({ budgets: [{ id: 'gas', amount: 3 }], activities });
    expect(poor.unplaced[0]?.reasons[0]?.code).toBe('budget-spent');
  });

  it('never moves a pin', () => {
    const pinned = { start_min: 200, mode: 0, units: ['bob'] };
    const units = [unit('ann'), unit('bob')];
    const result = solved({
      units,
      activities: [
        activity('a/1', { pinned: { ...pinned, units: [] }, modes: [mode(60, [need(['ann', 'bob'])])] }),
      ],
    });
    expect(spanOf(result, 'a/1')).toEqual([200, 260]);
  });

  it('refuses activities that wait for each other', () => {
    const activities = [activity('a/1'), activity('a/2')];
    expect(() =>
      solve(problem({ activities, lags: [after('a/1', 'a/2'), after('a/2', 'a/1')] }), {
        seed: 1,
        schedules: 1,
      }),
    ).toThrow(/ring/);
  });
});

const smallProblem = fc
  .record({
    jobs: fc.array(
      fc.array(
        fc.record({
          duration_min: fc.integer({ min: 1, max: 300 }),
          crew: fc.integer({ min: 0, max: 2 }),
          certified: fc.boolean(),
          breakable: fc.boolean(),
          place: fc.constantFrom('x', 'y', null),
          release_min: fc.integer({ min: 0, max: 500 }),
        }),
        { minLength: 1, maxLength: 5 },
      ),
      { minLength: 1, maxLength: 5 },
    ),
    longest: fc.option(fc.integer({ min: 0, max: 600 })),
    cylinders: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ jobs, longest, cylinders }) => {
    const shift = (from: number, to: number) =>
      Array.from({ length: 5 }, (_, day) => [day * DAY + from, day * DAY + to] as const);
    const people = ['ann', 'bob', 'cat'];
    const activities = jobs.flatMap((phases, job) =>
      phases.map((phase, index) => {
        const needs = phase.crew === 0 ? [] : [need(people, phase.certified ? ['gas'] : [], phase.crew)];
        return activity(`j${job}/${index}`, {
          place: phase.place,
          breakable: phase.breakable,
          minimumPiece_min: Math.min(30, phase.duration_min),
          release_min: phase.release_min,
          state: job % 2 === 0 ? 'R-134a' : 'R-410A',
          due_min: index === phases.length - 1 ? 2000 : null,
          calendarIds: phase.crew === 2 ? ['site'] : [],
          modes: [mode(phase.duration_min, needs)],
        });
      }),
    );
    return problem({
      calendars: [
        { id: 'day', open: shift(420, 1020) },
        { id: 'night', open: shift(1080, 1430) },
        { id: 'site', open: shift(300, 1200) },
      ],
      places: ['base', 'x', 'y'],
      travel_min: [
        [0, 30, 45],
        [30, 0, 20],
        [45, 20, 0],
      ],
      units: [
        ...people.map((id, index) =>
          unit(id, {
            calendarId: index === 2 ? 'night' : 'day',
            basePlace: 'base',
            returnsToBase: true,
            skills: index === 1 ? [] : [{ name: 'gas', validUntil_min: index === 0 ? 4 * DAY : null }],
          }),
        ),
        ...['c1', 'c2', 'c3'].map((id) =>
          unit(id, { kind: 'cylinder', basePlace: 'base', cleanOut: { minutes: 60, initialState: null } }),
        ),
      ],
      activities,
      lags: jobs.flatMap((phases, job) =>
        phases.slice(1).map((_, index) => after(`j${job}/${index}`, `j${job}/${index + 1}`, 0, longest)),
      ),
      holds: jobs.map((phases, job) => ({
        id: `h${job}`,
        jobId: `j${job}`,
        fromActivity: `j${job}/0`,
        toActivity: `j${job}/${phases.length - 1}`,
        eligible: ['c1', 'c2', 'c3'],
        count: cylinders,
        state: job % 2 === 0 ? 'R-134a' : 'R-410A',
      })),
    });
  });

describe('any small week', () => {
  it('gets a plan that the independent check accepts, not before its lower bound', () => {
    fc.assert(
      fc.property(smallProblem, fc.nat(1000), (given, seed) => {
        const { plan } = solve(given, { seed, schedules: 12 });
        expect(checkPlan(given, plan)).toEqual([]);
        expect(plan.objective.makespan_min).toBeGreaterThanOrEqual(
          plan.bookings.length > 0 ? plan.lowerBound_min : 0,
        );
      }),
      { numRuns: 150 },
    );
  });

  it('gets the same plan from the same seed, to the byte', () => {
    fc.assert(
      fc.property(smallProblem, fc.nat(1000), (given, seed) => {
        const run = (): string => JSON.stringify(solve(given, { seed, schedules: 15 }));
        expect(run()).toBe(run());
      }),
      { numRuns: 20 },
    );
  });

  it('stops when asked, with a whole plan', () => {
    const given = fc.sample(smallProblem, { numRuns: 1, seed: 3 })[0]!;
    let asked = 0;
    const result = solve(given, { seed: 1, schedules: 100_000, shouldStop: () => (asked += 1) > 5 });
    expect(result.plan.schedules).toBeLessThan(10);
    expect(checkPlan(given, result.plan)).toEqual([]);
  });
});

describe('the independent check', () => {
  const given = problem({
    units: [unit('ann'), unit('bob')],
    activities: ['a/1', 'b/1'].map((id) => activity(id, { modes: [mode(60, [need(['ann'])])] })),
  });
  const { plan } = solve(given, { seed: 1, schedules: 1 });
  const damaged = (change: (booking: (typeof plan.bookings)[number]) => object) =>
    checkPlan(given, {
      ...plan,
      bookings: plan.bookings.map((booking, at) => (at === 1 ? { ...booking, ...change(booking) } : booking)),
    }).map(({ code }) => code);

  it('finds a person used twice, a unit that is not eligible, and a wrong duration', () => {
    const first = plan.bookings[0]!;
    const { start_min, end_min, pieces } = first;
    expect(damaged(() => ({ start_min, end_min, pieces }))).toContain('used-twice');
    expect(damaged(() => ({ units: [{ need: 'anyone', unitIds: ['bob'] }] }))).toContain('not-eligible');
    expect(damaged(() => ({ pieces: [[0, 10]] }))).toContain('wrong-duration');
  });
});
