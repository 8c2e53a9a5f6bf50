import { PASCALS_PER_INCH_OF_MERCURY, toSi } from '@brimline/quantities';
import {
  bubblePressure,
  liquidDensity,
  pressureClass,
  pressureClassOf,
  refrigerant,
  vapourDensity,
} from '@brimline/refrigerants';
import { describe, expect, it } from 'vitest';
import { certificateForClasses, certificateNeeded, isCovered } from './certificate-needed.ts';
import {
  cylinderFillLimit,
  cylindersNeeded,
  type FillRule,
  guidelineNet,
  liquidShareAt131F,
} from './cylinder-fill-limit.ts';
import { cylinderPressureAllowed } from './cylinder-pressure-allowed.ts';
import { euLeakCheck } from './eu-leak-check.ts';
import { chronicLeak, isLeakRateExceeded, leakRate } from './leak-rate.ts';
import { leakRepairDates } from './leak-repair-dates.ts';
import { leakDetectionDuty, leakRule } from './leak-rule.ts';
import { machineryRoomVentilation, roomConcentration } from './machinery-room.ts';
import { lowPressureNitrogenLimit, nitrogenHoldRise } from './nitrogen.ts';
import {
  pressureOfVacuum,
  type RecoveryOccasion,
  recoveryLevelOfClass,
  requiredRecoveryLevel,
} from './required-recovery-level.ts';
import { requalification, testPressure } from './requalification.ts';
import { standingVacuum } from './standing-vacuum.ts';

// Factors written out here, so that the test does not lean on the code's own: exact by definition, from memory.
const POUND = 0.45359237;
const PSI = 6894.757;
const CUBIC_FOOT = 0.0283168466;
const MICRON = 0.133322;

type Occasion = Partial<RecoveryOccasion>;

describe('recovery levels: 40 CFR 82.156(a) Table 1, as read in a mirror of the law current to 2024', () => {
  const occasion = (charge_lb: number, made: string, more: Occasion = {}): RecoveryOccasion => ({
    charge_kg: charge_lb * POUND,
    recoveryMachineMade: made,
    ...more,
  });

  it.each([
    ['R-134a', 900, '2015-01-01', 15],
    ['R-134a', 150, '2015-01-01', 10],
    ['R-134a', 200, '2015-01-01', 15],
    ['R-22', 500, '2018-01-01', 10],
    ['R-22', 199.9, '2018-01-01', 0],
    ['R-22', 500, '1992-01-01', 4],
    ['R-134a', 900, '1990-01-01', 4],
    ['R-513A', 650, '2019-01-01', 15],
    ['R-410A', 260, '2019-01-01', 10],
  ])('%s, %d lb, machine of %s: %d in Hg vacuum', (name, charge_lb, made, vacuum_inHg) => {
    const level = requiredRecoveryLevel({ refrigerant: refrigerant(name), ...occasion(charge_lb, made) });
    expect(level.pressure_Pa).toBeCloseTo((29.9 - vacuum_inHg) * 3386.389, 1);
    expect(level.text).toContain(`${vacuum_inHg} in Hg`);
    expect(level.citation).toBe('40 CFR 82.156(a) Table 1');
  });

  it.each([
    ['R-123', 1200, '2016-01-01'],
    ['R-123', 1200, '1992-01-01'],
    ['R-1233zd(E)', 800, '2019-01-01'],
  ])('%s, %d lb, machine of %s: 25 mm Hg absolute', (name, charge_lb, made) => {
    const level = requiredRecoveryLevel({ refrigerant: refrigerant(name), ...occasion(charge_lb, made) });
    expect(level.pressure_Pa).toBeCloseTo(25 * 133.3224, 1);
    expect(level.text).toBe('25 mm Hg absolute');
  });

  it('asks 0 in Hg of a very high pressure appliance whatever its charge (R-13)', () => {
    const level = recoveryLevelOfClass('very high', occasion(300, '2019-01-01'));
    expect(level.pressure_Pa).toBeCloseTo(29.9 * 3386.389, 1);
  });

  // 82.156(a)(1): read in part. (a)(1)(iii), oil change: from memory. (a)(2), leaks: textbook summary.
  it.each([
    ['R-134a', { repair: 'non-major', evacuatedAfter: false }, 0],
    ['R-123', { repair: 'non-major', evacuatedAfter: false }, 0],
    ['R-134a', { leaking: 'leaking part' }, 0],
    ['R-22', { job: 'oil change' }, 5],
  ] as const)('%s with %j: no more than %d psig', (name, more, psig) => {
    const level = requiredRecoveryLevel({
      refrigerant: refrigerant(name),
      ...occasion(900, '2015-01-01', more),
      atmosphere_Pa: 100_000,
    });
    expect(level.pressure_Pa).toBeCloseTo(100_000 + psig * PSI, 0);
    expect(level.text).toBe(`no more than ${psig} psig`);
  });

  it.each([
    { repair: 'non-major', evacuatedAfter: true },
    { repair: 'non-major' },
    { leaking: 'sound part' },
    { repair: 'major', evacuatedAfter: false },
  ] as const)('goes by the table with %j', (more) => {
    const level = requiredRecoveryLevel({
      refrigerant: refrigerant('R-134a'),
      ...occasion(900, '2015-01-01', more),
    });
    expect(level.text).toBe('15 in Hg vacuum');
  });

  it('splits on 15 November 1993 itself', () => {
    const on = (made: string) => recoveryLevelOfClass('medium', occasion(900, made)).text;
    expect(on('1993-11-14')).toBe('4 in Hg vacuum');
    expect(on('1993-11-15')).toBe('15 in Hg vacuum');
  });

  it('plans R-32 as high pressure: 10 in Hg at 200 lb, and says why', () => {
    const level = requiredRecoveryLevel({ refrigerant: refrigerant('R-32'), ...occasion(300, '2019-01-01') });
    expect(level.text).toBe('10 in Hg vacuum');
    expect(level.notes.join(' ')).toMatch(/355 psia/u);
  });
});

describe('levels as pressures: arithmetic with 1 inHg = 0.49115 psi', () => {
  it.each([
    [15, 7.318],
    [10, 9.774],
  ])('%d in Hg vacuum is %d psia', (vacuum_inHg, psia) => {
    expect(Math.abs(pressureOfVacuum(vacuum_inHg) / PSI - psia)).toBeLessThan(0.02);
  });

  it('has 25 mm Hg absolute at 0.4834 psia and 28.92 in Hg vacuum', () => {
    const { pressure_Pa } = recoveryLevelOfClass('low', {
      charge_kg: 500,
      recoveryMachineMade: '2016-01-01',
    });
    expect(Math.abs(pressure_Pa / PSI - 0.4834)).toBeLessThan(0.001);
    expect(Math.abs(29.9 - pressure_Pa / PASCALS_PER_INCH_OF_MERCURY - 28.92)).toBeLessThan(0.05);
  });

  it('has 500 micron at 66.66 Pa, 270 Pa at 2025 micron, 0.25 kg/min at 33.07 lb/h', () => {
    expect(Math.abs(toSi(500, 'absolute pressure', 'micron') - 66.66)).toBeLessThan(0.05);
    expect(Math.abs(270 / toSi(1, 'absolute pressure', 'micron') - 2025)).toBeLessThan(3);
    expect(Math.abs(0.25 / 60 / toSi(1, 'mass flow', 'lb/h') - 33.07)).toBeLessThan(0.1);
  });

  // Computed independently with CoolProp 8.0.0, 100 ft3 at 77 degF.
  it.each([
    ['R-134a', (29.9 - 15) * 3386.389, 13.1],
    ['R-123', 25 * 133.3224, 1.29],
  ])('leaves %s vapour at %d Pa: %d lb in 100 ft3', (name, pressure_Pa, left_lb) => {
    const left_kg = vapourDensity(refrigerant(name), 298.15, pressure_Pa) * 100 * CUBIC_FOOT;
    expect(Math.abs(left_kg / POUND / left_lb - 1)).toBeLessThan(0.02);
  });
});

describe('classes and certificates: 40 CFR 82.152 (read second hand), 82.161 (from memory)', () => {
  // Pressures computed independently with CoolProp 8.0.0.
  it.each([
    ['R-123', 22.4, 'low'],
    ['R-134a', 147.4, 'medium'],
    ['R-22', 222.4, 'high'],
    ['R-410A', 351.8, 'high'],
    ['R-245fa', 36.4, 'low'],
    ['R-1234ze(E)', 111.2, 'medium'],
    ['R-514A', 21.4, 'low'],
  ])('%s, %d psia at 104 degF, is %s', (name, psia, expected) => {
    expect(Math.abs(bubblePressure(refrigerant(name), 313.15) / PSI - psia)).toBeLessThan(0.06);
    expect(pressureClassOf(psia * PSI)).toBe(expected);
    expect(pressureClass(refrigerant(name))).toBe(expected);
  });

  it('has R-114, 49.1 psia, in the medium class', () => expect(pressureClassOf(49.1 * PSI)).toBe('medium'));

  it('asks type III or universal for low pressure', () => {
    const need = certificateForClasses(['low']);
    expect(isCovered(need, ['type III'])).toBe(true);
    expect(isCovered(need, ['universal'])).toBe(true);
    expect(isCovered(need, ['type I', 'type II'])).toBe(false);
  });

  it('asks type II or universal for medium and high', () => {
    const need = certificateForClasses(['medium', 'high']);
    expect(isCovered(need, ['type II'])).toBe(true);
    expect(isCovered(need, ['type III'])).toBe(false);
  });

  it('asks universal, or II with III, for R-123 and R-134a on one site', () => {
    const need = certificateNeeded([refrigerant('R-123'), refrigerant('R-134a')]);
    expect(isCovered(need, ['type II'])).toBe(false);
    expect(isCovered(need, ['type III', 'type II'])).toBe(true);
    expect(need.text).toBe('universal, or type II with type III');
  });
});

describe('leak rate: 40 CFR 82.152 "leak rate" (training text; same method in 84.102)', () => {
  it.each([
    [45, 1200, 90, 15.208],
    [45, 1200, 400, 3.75],
    [10, 900, 14, 28.968],
  ])('annualizing %d lb of %d after %d days: %d %', (added_lb, charge_lb, days, percent) => {
    const rate = leakRate({
      charge_kg: charge_lb * POUND,
      history: { method: 'annualizing', added_kg: added_lb * POUND, daysSinceLastAddition: days },
    });
    expect(Math.abs(rate.percentPerYear - percent)).toBeLessThan(0.01);
  });

  it('rolls 30, 25 and 60 lb of 1000 into 11.5 %, and leaves out what is older than 365 days', () => {
    const additions = [30, 25, 60].map((lb, place) => ({ daysAgo: place * 100, added_kg: lb * POUND }));
    const rate = leakRate({
      charge_kg: 1000 * POUND,
      history: { method: 'rolling', additions: [...additions, { daysAgo: 366, added_kg: 50 }] },
    });
    expect(Math.abs(rate.percentPerYear - 11.5)).toBeLessThan(0.01);
    expect(rate).toMatchObject({ threshold: 10, exceeded: true });
  });

  // 40 CFR 82.157(c)(2), read in a mirror of the law.
  it.each([
    ['comfort cooling', 15.208, true],
    ['comfort cooling', 10, false],
    ['industrial process', 25, false],
    ['commercial refrigeration', 25, true],
  ] as const)('%s at %d %: over is %s', (use, percent, isOver) => {
    expect(isLeakRateExceeded(percent, use)).toBe(isOver);
  });

  it('takes exactly ten per cent, however it comes about in binary, as not over', () => {
    const history = { method: 'annualizing', added_kg: 0.3 * POUND, daysSinceLastAddition: 365 } as const;
    expect(leakRate({ charge_kg: 3 * POUND, history }).exceeded).toBe(false);
  });

  it('reports 1000 lb lost of 800 in a year, by 1 March: 82.157(j), training text', () => {
    const chronic = chronicLeak({ lost_kg: 1000 * POUND, charge_kg: 800 * POUND, year: 2026 });
    expect(chronic).toMatchObject({ report: true, reportBy: '2027-03-01' });
    expect(chronicLeak({ lost_kg: 999 * POUND, charge_kg: 800 * POUND, year: 2026 }).report).toBe(false);
  });

  // 82.157(d), 84.106(d): trade and training text; the 120 days from memory.
  it.each([
    [{ use: 'comfort cooling' }, '2026-04-09'],
    [{ use: 'industrial process', shutdownNeeded: true }, '2026-07-08'],
    [{ use: 'comfort cooling', shutdownNeeded: true }, '2026-04-09'],
  ] as const)('added to on 2026-03-10, %j: repaired by %s', (input, by) => {
    expect(leakRepairDates({ exceededOn: '2026-03-10', charge_kg: 500, ...input }).repairBy).toBe(by);
  });
});

describe('which leak-repair rule: 82.157(a) as read; 84.106 after a trade summary of 89 FR 82682', () => {
  it.each([
    ['R-123', 800, 2026, '82.157'],
    ['R-134a', 900, 2026, '84.106'],
    ['R-1233zd(E)', 800, 2026, 'none'],
    ['R-134a', 900, 2025, 'none'],
    ['R-134a', 14.9, 2026, 'none'],
    ['R-22', 49, 2026, 'none'],
  ])('%s, %d lb, %d: %s', (name, charge_lb, year, expected) => {
    const found = leakRule({
      refrigerant: refrigerant(name),
      charge_kg: charge_lb * POUND,
      on: `${year}-06-01`,
    });
    expect(found.rule).toBe(expected);
  });

  // Derived from compositions and GWP; leak rules of the 22 refrigerants: from memory.
  it.each([
    ['R-513A', '84.106'],
    ['R-515B', '84.106'],
    ['R-454B', '84.106'],
    ['R-410A', '84.106'],
    ['R-245fa', '84.106'],
    ['R-124', '82.157'],
    ['R-11', '82.157'],
    ['R-514A', 'none'],
    ['R-1234ze(E)', 'none'],
    ['R-1234yf', 'none'],
    ['R-290', 'none'],
  ])('%s is under %s', (name, expected) => {
    expect(leakRule({ refrigerant: refrigerant(name), charge_kg: 400, on: '2026-01-01' }).rule).toBe(
      expected,
    );
  });

  it('asks no automatic detection of a comfort-cooling chiller, however large: 84.108, consultant summary', () => {
    const of = (use: 'comfort cooling' | 'industrial process', installedOn: string) =>
      leakDetectionDuty({ refrigerant: refrigerant('R-134a'), charge_kg: 3000 * POUND, use, installedOn });
    expect(of('comfort cooling', '2026-06-01').required).toBe(false);
    expect(of('industrial process', '2026-06-01')).toMatchObject({ required: true, by: '2026-07-01' });
    expect(of('industrial process', '2019-06-01')).toMatchObject({ required: true, by: '2027-01-01' });
  });
});

describe('cylinders', () => {
  const fill = (name: string, capacity_lb: number, tare_lb: number, rule: FillRule = 'tighter') =>
    cylinderFillLimit({
      refrigerant: refrigerant(name),
      waterCapacity_kg: capacity_lb * POUND,
      tare_kg: tare_lb * POUND,
      rule,
    });

  // Guideline K, 0.80 WC SG(77 degF), in a trade article; specific gravity computed independently with CoolProp 8.0.0.
  it.each([
    ['R-134a', 47.7, 28, 74.06],
    ['R-22', 47.7, 28, 73.45],
    ['R-410A', 26.2, 17, 39.2],
    ['R-134a', 1000, 380, 1345.6],
    ['R-123', 1000, 380, 1551.2],
  ])('%s in %d lb of water capacity, tare %d: %d lb gross', (name, capacity_lb, tare_lb, gross_lb) => {
    const { gross_kg, rule } = fill(name, capacity_lb, tare_lb);
    expect(Math.abs(gross_kg / POUND / gross_lb - 1)).toBeLessThan(0.005);
    expect(rule).toBe('guideline');
  });

  it("repeats the article's own example: 0.80 x 1000 x 1.197 + 380 = 1337.6 lb", () => {
    expect(guidelineNet(1000, 1.197) + 380).toBeCloseTo(1337.6, 6);
  });

  it('takes 80 % of the water capacity by the older rule (trade article)', () => {
    expect(fill('R-134a', 1000, 380, 'older guideline').net_kg / POUND).toBeCloseTo(800, 6);
  });

  it('takes 105 % for R-22 by law: 49 CFR 173.304a Table 1, and the lower of both when asked for the tighter', () => {
    expect(Math.abs(fill('R-22', 47.7, 28, 'regulation').net_kg / POUND - 50.09)).toBeLessThan(0.05);
    expect(Math.abs(fill('R-22', 47.7, 28).net_kg / POUND / 45.45 - 1)).toBeLessThan(0.005);
  });

  it.each([
    ['R-134a', 2400, 1000, 3],
    ['R-134a', 2400, 122.7, 21],
    ['R-410A', 400, 47.7, 10],
    ['R-123', 1500, 1000, 2],
  ])('%s, %d lb into cylinders of %d lb: %d', (name, charge_lb, capacity_lb, count) => {
    expect(cylindersNeeded(charge_lb * POUND, fill(name, capacity_lb, 0).net_kg)).toBe(count);
  });

  // 49 CFR 173.301a, 5/4 rule, read in part; pressures computed independently with CoolProp 8.0.0.
  it.each([
    ['R-410A', 260, 484.2, false],
    ['R-410A', 400, 484.2, true],
    ['R-134a', 260, 201.6, true],
    ['R-407C', 260, 345.2, false],
  ])(
    '%s in a cylinder of %d psig (%d at 131 degF): allowed is %s',
    (name, service_psig, hot_psig, expected) => {
      const found = cylinderPressureAllowed({
        refrigerant: refrigerant(name),
        servicePressure_Pa_gauge: service_psig * PSI,
      });
      expect(Math.abs(found.pressureAt131F_Pa_gauge / PSI - hot_psig)).toBeLessThan(0.2);
      expect(found.allowed).toBe(expected);
    },
  );

  it('lets R-22 into the 240 psig marking that the table names, though 5/4 would ask 241', () => {
    const of = (service_psig: number) =>
      cylinderPressureAllowed({
        refrigerant: refrigerant('R-22'),
        servicePressure_Pa_gauge: service_psig * PSI,
      });
    expect(of(240).allowed).toBe(true);
    expect(of(225).allowed).toBe(false);
  });

  it('tests DOT-4BA400 at 800 psig: 2 x service, 49 CFR 180.209 Table 1', () => {
    expect(testPressure('DOT-4BA', 400 * PSI) / PSI).toBeCloseTo(800, 6);
  });

  it('asks the next test of a recovery cylinder after 5 years: 49 CFR 180.209 Table 1', () => {
    const found = requalification({ lastRequalified: '2021-06', service: 'recovered' });
    expect(found).toMatchObject({ due: '2026-06', lastFillDay: '2026-06-30', period_years: 5 });
    expect(requalification({ lastRequalified: '2021-06', service: 'recovered', period_years: 12 }).due).toBe(
      '2026-06',
    );
    expect(requalification({ lastRequalified: '2021-06', service: 'new', period_years: 12 }).due).toBe(
      '2033-06',
    );
  });

  // Densities computed independently with CoolProp 8.0.0; the limit of 100 %: 49 CFR 173.304(b).
  it.each([
    ['R-134a', 1206.7, 1078.3, 89.5],
    ['R-410A', 1058.9, 865.4, 97.9],
  ])('%s, 80 % at 77 degF, is %d / %d kg/m3, so %d % full at 131', (name, cold, hot, percent) => {
    const r = refrigerant(name);
    expect(Math.abs(liquidDensity(r, 298.15) / cold - 1)).toBeLessThan(1e-4);
    expect(Math.abs(liquidDensity(r, 328.15) / hot - 1)).toBeLessThan(1e-4);
    expect(Math.abs(liquidShareAt131F(r, 0.8) * 100 - percent)).toBeLessThan(0.3);
  });
});

describe('European leak checks: Reg. (EU) 2024/573, from memory; thresholds as 517/2014, read in a government table', () => {
  it.each([
    ['R-134a', 250, false, 6, 357.5],
    ['R-134a', 408.2, true, 6, 583.7],
    ['R-134a', 30, false, 12, 42.9],
    ['R-410A', 300, false, 3, 626.4],
    ['R-1234ze(E)', 60, false, 6, null],
  ])('%s, %d kg, detection %s: every %d months', (name, charge_kg, leakDetection, months, tonnes) => {
    const found = euLeakCheck({ refrigerant: refrigerant(name), charge_kg, leakDetection });
    expect(found.interval_months).toBe(months);
    if (tonnes === null) expect(found.tonnesCO2e).toBeNull();
    else expect(Math.abs((found.tonnesCO2e ?? 0) - tonnes)).toBeLessThan(0.1);
  });
});

describe('machinery rooms: International Mechanical Code 1105.6 and Table 1103.1, adopted text as read', () => {
  it('exhausts 3000 cfm for 900 lb, 1.4 m3/s for 400 kg', () => {
    const of = (charge_kg: number) => machineryRoomVentilation({ charge_kg }).emergencyExhaust_m3_s;
    expect(Math.abs((of(900 * POUND) / CUBIC_FOOT) * 60 - 3000)).toBeLessThan(1);
    expect(Math.abs(of(400) - 1.4)).toBeLessThan(0.01);
  });

  it('opens 30 ft2 for 900 lb', () => {
    const { naturalOpening_m2 } = machineryRoomVentilation({ charge_kg: 900 * POUND });
    expect(Math.abs(naturalOpening_m2 / 0.09290304 - 30)).toBeLessThan(0.1);
  });

  it('has 900 lb of R-134a in 20000 ft3 at 45 lb/1000 ft3, over 13; 40 lb of R-123 not over 3.5', () => {
    const of = (refrigerantName: string, lb: number) =>
      roomConcentration({ refrigerantName, charge_kg: lb * POUND, room_m3: 20_000 * CUBIC_FOOT });
    const perThousand = (kg_m3: number) => (kg_m3 / POUND) * CUBIC_FOOT * 1000;
    expect(Math.abs(perThousand(of('R-134a', 900).concentration_kg_m3) - 45)).toBeLessThan(0.1);
    expect(perThousand(of('R-134a', 900).limit_kg_m3 ?? 0)).toBeCloseTo(13, 4);
    expect(of('R-134a', 900).isOver).toBe(true);
    expect(of('R-123', 40).isOver).toBe(false);
    expect(of('R-407C', 40).isOver).toBeNull();
  });
});

describe('pressure and vacuum tests', () => {
  const warmed = nitrogenHoldRise({
    start_Pa_gauge: 150 * PSI,
    startTemperature_K: (70 + 459.67) / 1.8,
    endTemperature_K: (85 + 459.67) / 1.8,
  });

  it('expects 4.5 psi from 15 degF at 150 psig by the specification: UFGS, 0.3 psi per degF', () => {
    expect(Math.abs((warmed.ruleOfThumb_Pa ?? 0) / PSI - 4.5)).toBeLessThan(0.01);
  });

  it('expects 4.66 psi by the gas law: arithmetic', () => {
    expect(Math.abs(warmed.rise_Pa / PSI - 4.66)).toBeLessThan(0.03);
  });

  it('allows 10 psig of nitrogen in a low-pressure chiller with a 15 psig disc: EPA type III training text', () => {
    const limit = lowPressureNitrogenLimit({
      refrigerant: refrigerant('R-123'),
      ruptureDisc_Pa_gauge: 15 * PSI,
    });
    expect((limit?.limit_Pa_gauge ?? 0) / PSI).toBeCloseTo(10, 3);
    expect(lowPressureNitrogenLimit({ refrigerant: refrigerant('R-134a') })).toBeNull();
  });

  // UFGS refrigerant piping section, evacuation test, as read.
  it.each([
    [480, 3600, 'pass'],
    [500, 3600, 'pass'],
    [520, 3600, 'fail'],
    [520, 600, 'fail'],
    [480, 1800, 'too short'],
  ])('from 300 micron to %d after %d s: %s', (micron, elapsed_s, verdict) => {
    const found = standingVacuum({
      criterion: 'piping',
      start_Pa: 300 * MICRON,
      end_Pa: micron * MICRON,
      elapsed_s,
    });
    expect(found.verdict).toBe(verdict);
  });

  it('lets a chiller rise 0.04 in Hg in 24 h, not 0.06: a centrifugal chiller operation manual', () => {
    const start_Pa = (29.9 - 18) * 3386.389;
    const after = (rise_inHg: number) =>
      standingVacuum({
        criterion: 'chiller tightness',
        start_Pa,
        end_Pa: start_Pa + rise_inHg * 3386.389,
        elapsed_s: 86_400,
      }).verdict;
    expect(after(0.04)).toBe('pass');
    expect(after(0.06)).toBe('fail');
  });
});
