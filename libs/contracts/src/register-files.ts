import type { Base, Chiller, Cylinder, GearUnit, Person, Site } from '@brimline/firm';
import { z } from 'zod';
import {
  amount,
  identifier,
  localDay,
  localSpan,
  quantity,
  timeZone,
  weeklyWindow,
  words,
} from './fields.ts';

const schemaLink = z
  .string()
  .optional()
  .meta({ description: 'Where an editor finds the schema of this file.' });
const refrigerantName = z
  .string({ error: 'text' })
  .min(1)
  .meta({ description: 'ASHRAE designation, such as R-134a.' });
const latitude_deg = z.number().min(-90).max(90).meta({ description: 'Degrees north.' });
const longitude_deg = z.number().min(-180).max(180).meta({ description: 'Degrees east; west is negative.' });

const base = z.strictObject({
  id: identifier('Short name of the base'),
  name: words('Name of the base'),
  timeZone,
  latitude_deg,
  longitude_deg,
});

/** The firm itself and the span to plan. */
export const firmFile = z.strictObject({
  $schema: schemaLink,
  kind: z.literal('firm'),
  name: words('Name of the firm'),
  notice: z
    .string()
    .meta({ description: 'Shown wherever the firm is; says so when the data are invented. May be empty.' }),
  planFrom: localDay('First day to plan, on the clock of the first base'),
  planDays: z.int().min(1).max(60).meta({ description: 'Days to plan, 1 to 60.' }),
  bases: z.array(base satisfies z.ZodType<Base>).min(1),
});

const chiller = z
  .strictObject({
    id: identifier('Tag of the machine'),
    description: words('Class and rating, no make or model'),
    refrigerant: refrigerantName,
    nameplateCharge: z
      .union([z.literal('unknown'), amount('mass', 'Whole charge on the nameplate')], {
        error: 'a mass such as "240 lb", or "unknown"',
      })
      .meta({ description: 'Whole charge on the nameplate, or "unknown": then nothing is estimated.' }),
    cooling: z.enum(['air-cooled', 'water-cooled']),
    evaporator: z.enum(['direct-expansion', 'flooded', 'falling-film']),
    internalVolume: amount('volume', 'Refrigerant-side volume, where it was measured').optional(),
    circuits: z.int().min(1).max(8).default(1).meta({ description: 'Refrigerant circuits.' }),
    liquidPort: amount('length', 'Bore of the liquid port'),
    vapourPort: amount('length', 'Bore of the vapour port'),
    testPressure: quantity('gauge pressure', 'Allowed nitrogen test pressure', { above: 0 }),
    evaporatorFluid: z.enum(['water', 'glycol', 'none']),
    freezingPoint: quantity('temperature', 'Freezing point of the fluid in the evaporator').prefault(
      '0 degC',
    ),
    waterFlow: z.boolean().meta({ description: 'Can water flow through the barrels while work goes on?' }),
  })
  .transform(
    ({ nameplateCharge, internalVolume, liquidPort, vapourPort, testPressure, freezingPoint, ...rest }) => ({
      ...rest,
      nameplateCharge_kg: nameplateCharge === 'unknown' ? null : nameplateCharge,
      internalVolume_m3: internalVolume ?? null,
      liquidPort_m: liquidPort,
      vapourPort_m: vapourPort,
      testPressure_Pa_gauge: testPressure,
      freezingPoint_K: freezingPoint,
    }),
  ) satisfies z.ZodType<Omit<Chiller, 'siteId'>>;

const site = z
  .strictObject({
    id: identifier('Short name of the site'),
    name: words('Name of the site'),
    timeZone,
    latitude_deg,
    longitude_deg,
    elevation: quantity('length', 'Height above the sea').prefault('0 m'),
    ambientByMonth: z
      .array(quantity('temperature', 'Typical temperature round the machine'))
      .length(12, 'twelve temperatures, January first')
      .meta({ description: 'Temperature round the machine by month, January first.' }),
    access: z
      .array(weeklyWindow)
      .default([])
      .meta({ description: 'When people may work; empty means at any time.' }),
    outages: z
      .array(localSpan)
      .default([])
      .meta({ description: 'When machines may be out of service; empty: at any time.' }),
    unattendedAllowed: z
      .boolean()
      .meta({ description: 'May a pump or a pressure hold run with nobody on site?' }),
    twoPersonRule: z.boolean().default(false),
    induction: z.enum(['ordinary', 'strict']).default('ordinary'),
    carryIn: z.enum(['ground level', 'roof or basement']).default('ground level'),
    chillers: z.array(chiller).min(1),
  })
  .transform(({ elevation, ambientByMonth, ...rest }) => ({
    ...rest,
    elevation_m: elevation,
    ambient_K: ambientByMonth,
  })) satisfies z.ZodType<Site>;

export const sitesFile = z.strictObject({
  $schema: schemaLink,
  kind: z.literal('sites'),
  sites: z.array(site).min(1),
});

const unitFacts = {
  id: identifier('Tag painted on the unit'),
  description: words('Class and rating, no make or model'),
  base: identifier('Base where it is kept'),
  calibrationDue: localDay('Next calibration').optional(),
  lastRefrigerant: refrigerantName.optional(),
  cleanOut: quantity('time', 'Time to clean it for another refrigerant', { from: 0 }).prefault('0 min'),
};

interface UnitInput {
  readonly base: string;
  readonly calibrationDue?: string | undefined;
  readonly lastRefrigerant?: string | undefined;
  readonly cleanOut: number;
}

function unitOutput<Rest extends UnitInput>({
  base: baseId,
  calibrationDue,
  lastRefrigerant,
  cleanOut,
  ...rest
}: Rest) {
  return {
    ...rest,
    baseId,
    calibrationDue: calibrationDue ?? null,
    lastRefrigerant: lastRefrigerant ?? null,
    cleanOut_s: cleanOut,
  };
}

const recoveryMachine = z
  .strictObject({
    ...unitFacts,
    kind: z.literal('recovery machine'),
    vapourRate: amount('mass flow', 'Rated vapour flow at 75 degF saturation of the rating refrigerant'),
    directLiquidRate: amount('mass flow', 'Rated direct liquid flow'),
    ratingRefrigerant: refrigerantName,
    finalVacuum: amount('absolute pressure', 'Lowest suction pressure it can reach'),
    coolerBypass: z.boolean(),
    coolerConductance: quantity('heat conductance', 'Of its cooler when left in circuit', { from: 0 }),
    flammableSafe: z.boolean(),
    pressureClasses: z.array(z.enum(['low', 'medium', 'high', 'very high'])).min(1),
    made: localDay('Day it was made: the recovery level depends on it'),
  })
  .transform(({ vapourRate, directLiquidRate, finalVacuum, coolerConductance, ...rest }) => ({
    ...unitOutput(rest),
    vapourRate_kg_s: vapourRate,
    directLiquidRate_kg_s: directLiquidRate,
    finalVacuum_Pa: finalVacuum,
    cooler_W_K: coolerConductance,
  }));

const vacuumPump = z
  .strictObject({
    ...unitFacts,
    kind: z.literal('vacuum pump'),
    speed: amount('volume flow', 'Speed at high pressure'),
    ultimate: amount('absolute pressure', 'Lowest pressure on a closed inlet, hot with fresh oil'),
  })
  .transform(({ speed, ultimate, ...rest }) => ({
    ...unitOutput(rest),
    speed_m3_s: speed,
    ultimate_Pa: ultimate,
  }));

const scale = z
  .strictObject({
    ...unitFacts,
    kind: z.literal('scale'),
    capacity: amount('mass', 'Most it may carry'),
    resolution: amount('mass', 'Smallest step'),
  })
  .transform(({ capacity, resolution, ...rest }) => ({
    ...unitOutput(rest),
    capacity_kg: capacity,
    resolution_kg: resolution,
  }));

const hoseSet = z
  .strictObject({
    ...unitFacts,
    kind: z.literal('hose set'),
    use: z.enum(['transfer', 'vacuum']),
    bore: amount('length', 'Measured bore'),
    length: amount('length', 'Length of one hose'),
    fittingBore: amount('length', 'Smallest bore at the couplings'),
    valveBore: amount('length', 'Smallest bore in its valves'),
    roughness: quantity('length', 'Wall roughness', { from: 0 }).prefault('0.01 mm'),
  })
  .transform(({ bore, length, fittingBore, valveBore, roughness, ...rest }) => ({
    ...unitOutput(rest),
    bore_m: bore,
    length_m: length,
    fittingBore_m: fittingBore,
    valveBore_m: valveBore,
    roughness_m: roughness,
  }));

const coreTool = z.strictObject({ ...unitFacts, kind: z.literal('core tool') }).transform(unitOutput);
const vacuumGauge = z.strictObject({ ...unitFacts, kind: z.literal('vacuum gauge') }).transform(unitOutput);

const heater = z
  .strictObject({ ...unitFacts, kind: z.literal('heater'), power: amount('power', 'Electric power') })
  .transform(({ power, ...rest }) => ({ ...unitOutput(rest), power_W: power }));

const nitrogenSet = z
  .strictObject({
    ...unitFacts,
    kind: z.literal('nitrogen set'),
    cylinderVolume: amount('volume', 'Water volume of one cylinder'),
    fillPressure: amount('absolute pressure', 'Pressure of a full cylinder'),
    cylinders: z.int().min(1),
  })
  .transform(({ cylinderVolume, fillPressure, ...rest }) => ({
    ...unitOutput(rest),
    cylinderVolume_m3: cylinderVolume,
    fillPressure_Pa: fillPressure,
  }));

const gearUnit = z.discriminatedUnion('kind', [
  recoveryMachine,
  vacuumPump,
  scale,
  hoseSet,
  coreTool,
  vacuumGauge,
  heater,
  nitrogenSet,
]) satisfies z.ZodType<GearUnit>;

export const gearFile = z.strictObject({
  $schema: schemaLink,
  kind: z.literal('gear'),
  gear: z.array(gearUnit).min(1),
});

const cylinder = z
  .strictObject({
    id: identifier('Tag on the collar'),
    base: identifier('Base where it is kept'),
    waterCapacity: amount('mass', 'Water capacity stamped on the collar'),
    tare: amount('mass', 'Tare stamped on the collar'),
    ports: z.union([z.literal(1), z.literal(2)], { error: '1 or 2' }),
    servicePressure: quantity('gauge pressure', 'Service pressure stamped on the collar', { above: 0 }),
    refillable: z.boolean().default(true),
    requalificationDue: localDay('Next requalification'),
    owner: words('Who owns it').default('the firm'),
    refrigerant: refrigerantName.optional(),
    contents: quantity('mass', 'Refrigerant in it now', { from: 0 }).prefault('0 kg'),
    contentsKind: z.enum(['empty', 'new', 'recovered', 'reclaimed']).default('empty'),
    availableFrom: localDay('Day on which it will be delivered; absent: it is there').optional(),
  })
  .transform(
    ({
      base: baseId,
      waterCapacity,
      tare,
      servicePressure,
      refrigerant,
      contents,
      availableFrom,
      ...rest
    }) => ({
      ...rest,
      ...(availableFrom === undefined ? {} : { availableFrom }),
      baseId,
      waterCapacity_kg: waterCapacity,
      tare_kg: tare,
      servicePressure_Pa_gauge: servicePressure,
      refrigerant: refrigerant ?? null,
      contents_kg: contents,
    }),
  ) satisfies z.ZodType<Cylinder>;

export const cylindersFile = z.strictObject({
  $schema: schemaLink,
  kind: z.literal('cylinders'),
  cylinders: z.array(cylinder).min(1),
});

const person = z
  .strictObject({
    id: identifier('Short name'),
    name: words('Name'),
    grade: z.enum(['lead', 'technician', 'helper']),
    certificates: z
      .array(
        z
          .strictObject({
            kind: z.enum(['type I', 'type II', 'type III', 'universal', 'start-up']),
            validUntil: localDay('Last day on which it is valid').optional(),
          })
          .transform(({ kind, validUntil }) => ({ kind, validUntil: validUntil ?? null })),
      )
      .default([]),
    labourClass: words('Labour class of the rate card'),
    base: identifier('Base from which the person sets out'),
    shifts: z.array(weeklyWindow).min(1),
    absences: z.array(localSpan).default([]),
  })
  .transform(({ base: baseId, ...rest }) => ({ ...rest, baseId })) satisfies z.ZodType<Person>;

export const crewFile = z.strictObject({
  $schema: schemaLink,
  kind: z.literal('crew'),
  people: z.array(person).min(1),
});
