import { type Job, SCOPES } from '@brimline/firm';
import { z } from 'zod';
import { amount, identifier, localDateTime, quantity, words } from './fields.ts';

const setup = z
  .strictObject({
    method: z.enum(['direct', 'push-pull']).optional(),
    coresRemoved: z.boolean().optional(),
    coolerBypassed: z.boolean().optional(),
    machineIds: z.array(identifier('Tag of a recovery machine')).min(1).optional(),
    hoseSetId: identifier('Tag of a transfer hose set').optional(),
    pumpIds: z.array(identifier('Tag of a vacuum pump')).min(1).optional(),
  })
  .meta({ description: 'What the office fixes about how the job is done; the rest is chosen.' });

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
    setup: setup.default({}),
    notes: z.string().max(1000, 'at most 1000 characters').default(''),
  })
  .refine(({ notBefore, due }) => notBefore < due, { path: ['due'], message: 'a time after "notBefore"' })
  .refine(({ scope, missing }) => (scope === 'top-up') === (missing !== undefined), {
    path: ['missing'],
    message: 'a mass for the scope "top-up", absent for every other scope',
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
      ...rest
    }) => ({
      ...rest,
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
