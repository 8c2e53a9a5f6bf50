import { CIRCUIT_ORDERS, type Job, SCOPES, SERVED_USES } from '@brimline/firm';
import { z } from 'zod';
import { amount, identifier, localDateTime, localDay, quantity, share, words } from './fields.ts';

const setup = z
  .strictObject({
    method: z.enum(['direct', 'push-pull']).optional(),
    coresRemoved: z.boolean().optional(),
    coolerBypassed: z.boolean().optional(),
    machineIds: z.array(identifier('Tag of a recovery machine')).min(1).optional(),
    hoseSetId: identifier('Tag of a transfer hose set').optional(),
    pumpIds: z.array(identifier('Tag of a vacuum pump')).min(1).optional(),
    vacuumHoseSetId: identifier('Tag of a vacuum hose set').optional(),
    cylinderCapacity: amount('mass', 'Water capacity of the cylinders to use').optional(),
    circuitOrder: z.enum(CIRCUIT_ORDERS).optional(),
    entry: z.enum(['liquid line', 'evaporator']).optional(),
    warmWater: z
      .boolean()
      .optional()
      .meta({ description: 'Warm water through the barrels of a low-pressure machine while it is emptied.' }),
  })
  .transform(({ cylinderCapacity, ...rest }) => ({ ...rest, cylinderCapacity_kg: cylinderCapacity }))
  .meta({ description: 'What the office fixes about how the job is done; the rest is chosen.' });

const known = z
  .strictObject({
    internalVolume: amount('volume', 'Refrigerant-side volume of the whole machine').optional(),
    presentCharge: amount('mass', 'Refrigerant that is in the circuits worked on').optional(),
    trapped: share('Share of the charge that stays as liquid in low spots')
      .refine((value) => value <= 0.3, '0 % up to 30 %')
      .optional(),
    hoseRun: amount('length', 'Way of the hose from the machine to the cylinders').optional(),
    lift: quantity('length', 'How far the cylinders stand above the liquid; below is negative', {
      from: -30,
      to: 30,
    }).optional(),
    ambient: quantity('temperature', 'Temperature round the machine', {
      from: 233.15,
      to: 333.15,
    }).optional(),
  })
  .transform(({ internalVolume, presentCharge, trapped, hoseRun, lift, ambient }) => ({
    internalVolume_m3: internalVolume,
    presentCharge_kg: presentCharge,
    trappedShare: trapped,
    hoseRun_m: hoseRun,
    lift_m: lift,
    ambient_K: ambient,
  }))
  .meta({ description: 'What was seen or measured on site; whatever is absent is assumed, and said so.' });

const idleReading = z
  .strictObject({
    pressure: quantity('gauge pressure', 'Pressure of the machine at rest'),
    temperature: quantity('temperature', 'Temperature of the machine at rest', { from: 233.15, to: 333.15 }),
  })
  .transform(({ pressure, temperature }) => ({ pressure_Pa_gauge: pressure, temperature_K: temperature }));

const leakRecord = z
  .strictObject({
    use: z.enum(SERVED_USES).default('comfort cooling'),
    additions: z
      .array(
        z
          .strictObject({ on: localDay('Day of the addition'), added: amount('mass', 'Refrigerant added') })
          .transform(({ on, added }) => ({ on, added_kg: added })),
      )
      .min(1)
      .refine((list) => list.every(({ on }, index) => index === 0 || on > list[index - 1]!.on), {
        error: 'days in order, earliest first',
      }),
  })
  .meta({ description: 'Refrigerant added before; after each addition the machine was full.' });

/** Keys without a value are left out, so that "not wished" has one form only. */
function withoutGaps<Wishes extends object>(
  wishes: Wishes,
): { [Key in keyof Wishes]: Exclude<Wishes[Key], undefined> } {
  return Object.fromEntries(Object.entries(wishes).filter(([, value]) => value !== undefined)) as never;
}

/** One job a file. */
export const jobFile = z
  .strictObject({
    $schema: z.string().optional(),
    kind: z.literal('job'),
    id: identifier('Number of the job'),
    title: words('What is to be done, in a few words'),
    chiller: identifier('Tag of the machine'),
    scope: z.enum(SCOPES),
    notBefore: localDateTime('Earliest start'),
    due: localDateTime('Wanted end'),
    openWork: quantity('time', 'Work by others while the machine is open', { from: 0 }).prefault('0 h'),
    missing: amount('mass', 'Refrigerant to add in a top-up').optional(),
    evacuation: z.enum(['deep', 'triple']).default('deep'),
    evacuationTarget: amount('absolute pressure', 'Vacuum to reach').prefault('500 micron'),
    moisture: quantity('mass', 'Water left in the system, where known', { from: 0 }).optional(),
    setup: setup.prefault({}),
    known: known.optional(),
    circuits: z.int().min(1).max(8).optional().meta({ description: 'Circuits worked on; all unless given.' }),
    idleReading: idleReading.optional(),
    leakRecord: leakRecord.optional(),
    oilHeatUp: quantity('time', 'Oil heater on before start-up', { from: 0, to: 172_800 }).optional(),
    sameVisitAs: identifier('Job on the same site whose crew is let in already').optional(),
    notes: z.string().max(1000, 'at most 1000 characters').default(''),
  })
  .refine(({ notBefore, due }) => notBefore < due, { path: ['due'], message: 'a time after "notBefore"' })
  .refine(
    ({ scope, missing, idleReading: reading, leakRecord: record }) =>
      scope === 'top-up'
        ? missing !== undefined || reading !== undefined || record !== undefined
        : missing === undefined,
    {
      path: ['missing'],
      message:
        'a mass for the scope "top-up" (or "idleReading" or "leakRecord"), absent for every other scope',
    },
  )
  .refine(({ id, sameVisitAs }) => id !== sameVisitAs, {
    path: ['sameVisitAs'],
    message: 'another job than this one',
  })
  .transform(
    ({
      $schema: _link,
      kind: _kind,
      chiller: chillerId,
      openWork,
      missing,
      evacuationTarget,
      moisture,
      setup: wishes,
      known: facts,
      circuits,
      idleReading: reading,
      leakRecord: record,
      oilHeatUp,
      sameVisitAs,
      ...rest
    }) => ({
      ...rest,
      ...withoutGaps({
        known: facts && withoutGaps(facts),
        circuits,
        idleReading: reading,
        leakRecord: record,
        oilHeatUp_s: oilHeatUp,
        sameVisitAs,
      }),
      chillerId,
      openWork_s: openWork,
      missing_kg: missing ?? null,
      evacuationTarget_Pa: evacuationTarget,
      moisture_kg: moisture ?? null,
      setup: withoutGaps(wishes),
    }),
  );

/** The file's outcome is the noun itself. */
export const jobOf = (parsed: z.output<typeof jobFile>): Job => parsed as Job;
