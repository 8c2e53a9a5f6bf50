import { type Calculation, choiceField, textField } from '@brimline/quantities';
import {
  choice,
  CITED_RESULTS,
  notNegativeField,
  numberIfGiven,
  optional,
  positiveField,
  quantity,
  text,
  yesOrNo,
} from './calculation-fields.ts';
import { STANDING_VACUUM_CRITERIA } from './data/pressure-and-vacuum-tests.ts';
import { machineryRoomVentilation, roomConcentration } from './machinery-room.ts';
import { nitrogenHoldRise } from './nitrogen.ts';
import { standingVacuum } from './standing-vacuum.ts';

const exhaust: Calculation = {
  name: 'machinery-room-exhaust',
  title: 'Exhaust of a machinery room',
  formula:
    'cfm = 100 sqrt(G lb); free opening instead, ft2 = sqrt(G lb); normal: larger of 0.5 cfm/ft2 and 20 cfm a person',
  source: 'International Mechanical Code 1105.6, after ASHRAE 15',
  fields: [
    quantity('charge_kg', 'kg', 'charge of the largest system in the room'),
    optional(quantity('floor_m2', 'm2', 'floor of the room')),
    optional(quantity('persons', '-', 'persons in the room')),
  ],
  results: [
    quantity('emergencyExhaust_m3_s', 'm3/s', 'on alarm'),
    quantity('naturalOpening_m2', 'm2', 'free opening for natural ventilation'),
    optional(quantity('normalExhaust_m3_s', 'm3/s', 'null when neither floor nor persons are given')),
    ...CITED_RESULTS,
  ],
  example: { charge_kg: 408.2 },
  run: (input) => ({
    ...machineryRoomVentilation({
      charge_kg: positiveField(input, 'charge_kg'),
      ...numberIfGiven(input, 'floor_m2'),
      ...numberIfGiven(input, 'persons'),
    }),
  }),
};

const concentration: Calculation = {
  name: 'room-concentration',
  title: 'Whole charge in a room against the concentration limit',
  formula: 'charge / volume compared with RCL',
  source: 'International Mechanical Code Table 1103.1, after ASHRAE 34',
  fields: [
    text('refrigerant', 'ASHRAE number, as R-134a'),
    quantity('charge_kg', 'kg', 'whole charge'),
    quantity('room_m3', 'm3', 'free volume'),
  ],
  results: [
    quantity('concentration_kg_m3', 'kg/m3', 'if all came out'),
    optional(quantity('limit_kg_m3', 'kg/m3', 'null where none is held')),
    optional(yesOrNo('isOver', 'null where no limit is held')),
    ...CITED_RESULTS,
  ],
  example: { refrigerant: 'R-134a', charge_kg: 408.2, room_m3: 566 },
  run: (input) => ({
    ...roomConcentration({
      refrigerantName: textField(input, 'refrigerant'),
      charge_kg: positiveField(input, 'charge_kg'),
      room_m3: positiveField(input, 'room_m3'),
    }),
  }),
};

const vacuum: Calculation = {
  name: 'standing-vacuum',
  title: 'Does a closed-off vacuum hold?',
  formula: 'piping: from 300 to at most 500 micron in 1 h; chiller tightness: at most 0.05 inHg rise in 24 h',
  source: 'UFGS refrigerant piping section; operation manual of a centrifugal chiller',
  fields: [
    choice('criterion', STANDING_VACUUM_CRITERIA, 'which test'),
    quantity('start_Pa', 'Pa', 'absolute, at closing'),
    quantity('end_Pa', 'Pa', 'absolute, now'),
    quantity('elapsed_s', 's', 'since closing'),
  ],
  results: [
    text('verdict', 'pass, fail or too short'),
    quantity('limit_Pa', 'Pa', 'absolute, highest that passes'),
    ...CITED_RESULTS,
  ],
  example: { criterion: 'piping', start_Pa: 39.99, end_Pa: 63.99, elapsed_s: 3600 },
  run: (input) => ({
    ...standingVacuum({
      criterion: choiceField(input, 'criterion', STANDING_VACUUM_CRITERIA),
      start_Pa: positiveField(input, 'start_Pa'),
      end_Pa: positiveField(input, 'end_Pa'),
      elapsed_s: notNegativeField(input, 'elapsed_s'),
    }),
  }),
};

const holdRise: Calculation = {
  name: 'nitrogen-hold-rise',
  title: 'Pressure a tight nitrogen hold gains from warming',
  formula: 'dP = P_abs dT / T',
  source: 'ideal gas law; UFGS refrigerant piping section, 0.3 psi per degF',
  fields: [
    quantity('start_Pa_gauge', 'Pa gauge', 'pressure at the start'),
    quantity('startTemperature_K', 'K', 'metal temperature at the start'),
    quantity('endTemperature_K', 'K', 'metal temperature at the end'),
    optional(quantity('atmosphere_Pa', 'Pa', 'barometric pressure, absolute')),
  ],
  results: [
    quantity('rise_Pa', 'Pa', 'by the gas law'),
    optional(quantity('ruleOfThumb_Pa', 'Pa', 'by the fixed figure; null below 100 psig')),
    ...CITED_RESULTS,
  ],
  example: { start_Pa_gauge: 1034214, startTemperature_K: 294.26, endTemperature_K: 302.59 },
  run: (input) => ({
    ...nitrogenHoldRise({
      start_Pa_gauge: notNegativeField(input, 'start_Pa_gauge'),
      startTemperature_K: positiveField(input, 'startTemperature_K'),
      endTemperature_K: positiveField(input, 'endTemperature_K'),
      ...numberIfGiven(input, 'atmosphere_Pa'),
    }),
  }),
};

export const roomCalculations: readonly Calculation[] = [exhaust, concentration, vacuum, holdRise];
