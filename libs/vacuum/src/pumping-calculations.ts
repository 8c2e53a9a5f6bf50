import { type Calculation, numberField, optionalNumberField, textField } from '@brimline/quantities';
import {
  CORES_FIELD,
  HOSE_EXAMPLE,
  HOSE_FIELDS,
  type Input,
  number,
  numbers,
  optional,
  PUMP_EXAMPLE,
  PUMP_FIELDS,
  pumpOnHose,
  TEMPERATURE,
  valueOf,
  VOLUME,
} from './calculation-fields.ts';
import { tubeConductance } from './conductance.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { evacuation } from './evacuation.ts';
import { gasNamed, GASES } from './gases.ts';
import { pumpDownTime, pumpDownTimeThroughHose } from './pump-down.ts';
import { tripleEvacuation } from './triple-evacuation.ts';

const PUMP_DOWN_FIELDS = [
  VOLUME,
  ...PUMP_FIELDS,
  number('from_Pa', 'Pa', 'start, absolute'),
  number('to_Pa', 'Pa', 'target, absolute'),
] as const;
const GAS_LOAD = optional('gasLoad_Pa_m3_s', 'Pa m3/s', 'leak and steady outgassing, 0 unless given');
const WATER_FIELDS = [
  optional('water_kg', 'kg', 'water in the system, 0 unless given'),
  optional('waterHeat_W_K', 'W/K', 'heat conductance to the water, 20 unless given'),
] as const;
const PUMP_DOWN_EXAMPLE = { volume_m3: 2, ...PUMP_EXAMPLE, from_Pa: 101325, to_Pa: 66.6612 };

function pumpDownInput(input: Input): Parameters<typeof pumpDownTime>[0] {
  return {
    ...numbers(input, 'volume_m3', 'speed_m3_s', 'ultimate_Pa', 'from_Pa', 'to_Pa'),
    gasLoad_Pa_m3_s: optionalNumberField(input, 'gasLoad_Pa_m3_s', 0),
  };
}

function wetSystem(input: Input) {
  return {
    pumps: [pumpOnHose(input)],
    gasLoad_Pa_m3_s: optionalNumberField(input, 'gasLoad_Pa_m3_s', 0),
    water_kg: optionalNumberField(input, 'water_kg', 0),
    waterHeat_W_K: optionalNumberField(input, 'waterHeat_W_K', 20),
  };
}

const tubeConductanceCalculation: Calculation = {
  name: 'tube-conductance',
  title: 'Conductance of a vacuum hose',
  formula: 'C = pi d^4 p/(128 eta l) + c pi d^3/(12 l) (1 + 192 d p)/(1 + 237 d p)',
  source: 'M. Knudsen 1909, in the form of Umrath et al., Fundamentals of Vacuum Technology, from memory',
  fields: [
    ...HOSE_FIELDS,
    number('meanPressure_Pa', 'Pa', 'mean of both ends, absolute'),
    TEMPERATURE,
    {
      name: 'gas',
      type: 'string',
      unit: '-',
      meaning: 'gas, air unless given',
      allowed: Object.keys(GASES).join(', '),
      optional: true,
    },
  ],
  results: [
    number('conductance_m3_s', 'm3/s', 'conductance'),
    { name: 'regime', type: 'string', unit: '-', meaning: 'viscous, transition or molecular' },
  ],
  example: { ...HOSE_EXAMPLE, meanPressure_Pa: 66.6612, temperature_K: 293.15, gas: 'air' },
  run: (input) => ({
    ...tubeConductance({
      ...numbers(input, 'bore_m', 'length_m', 'meanPressure_Pa', 'temperature_K'),
      gas: gasNamed(input['gas'] === undefined ? 'air' : textField(input, 'gas')),
    }),
  }),
};

const pumpDownCalculation: Calculation = {
  name: 'pump-down',
  title: 'Time to evacuate a dry volume at constant speed',
  formula: 't = (V/S) ln[(P0 - Pf)/(P - Pf)], Pf = Pu + Q/S',
  source: 'mass balance; Umrath et al., Fundamentals of Vacuum Technology',
  fields: [...PUMP_DOWN_FIELDS, GAS_LOAD],
  results: [number('time_s', 's', 'time')],
  example: PUMP_DOWN_EXAMPLE,
  run: (input) => ({ time_s: pumpDownTime(pumpDownInput(input)) }),
};

const throughHoseCalculation: Calculation = {
  name: 'pump-down-through-hose',
  title: 'Time to evacuate a dry volume through a hose, in closed form',
  formula: 't = pump term + (V/b) ln[1 + 2 b/(a P)], a = pi d^4/(128 eta l), b = (192/237) c pi d^3/(12 l)',
  source: 'derived from the conductance with the pump end at zero pressure',
  fields: [...PUMP_DOWN_FIELDS, GAS_LOAD, ...HOSE_FIELDS],
  results: [number('time_s', 's', 'time, some per cent above fine integration')],
  example: { ...PUMP_DOWN_EXAMPLE, ...HOSE_EXAMPLE },
  run: (input) => ({
    time_s: pumpDownTimeThroughHose({ ...pumpDownInput(input), ...numbers(input, 'bore_m', 'length_m') }),
  }),
};

const effectiveSpeedCalculation: Calculation = {
  name: 'effective-speed',
  title: 'Speed of a pump at the far end of its hose',
  formula: 'C((P + Pp)/2)(P - Pp) = S0 (Pp - Pu); S = S0 (Pp - Pu)/P',
  source: 'mass balance; conductance by Knudsen, turbulence by Prandtl',
  fields: [
    ...PUMP_FIELDS,
    ...HOSE_FIELDS,
    CORES_FIELD,
    number('pressure_Pa', 'Pa', 'in the vessel, absolute'),
  ],
  results: [number('speed_m3_s', 'm3/s', 'speed at the vessel')],
  example: { ...PUMP_EXAMPLE, ...HOSE_EXAMPLE, pressure_Pa: 66.6612 },
  run: (input) => ({ speed_m3_s: effectiveSpeed([pumpOnHose(input)], numberField(input, 'pressure_Pa')) }),
};

const evacuationCalculation: Calculation = {
  name: 'evacuation',
  title: 'Evacuation through a hose, with water and a gas load',
  formula: 'V dP/dt = -S(P) P + Q, integrated in ln(P - Pf); water on its plateau: t = m/rate',
  source: 'mass and energy balances; conductance by Knudsen; IAPWS saturation',
  fields: [...PUMP_DOWN_FIELDS, ...HOSE_FIELDS, CORES_FIELD, TEMPERATURE, GAS_LOAD, ...WATER_FIELDS],
  results: [
    number('time_s', 's', 'time, dry part to be multiplied by about 1.5 on real jobs'),
    number('pumpDown_s', 's', 'to the plateau, or all the way when dry'),
    number('drying_s', 's', 'on the plateau'),
    number('finish_s', 's', 'from the plateau to the target'),
    number('floor_Pa', 'Pa', 'where the gauge would come to rest, absolute'),
    { name: 'iceWarning', type: 'boolean', unit: '-', meaning: 'the water turns to ice' },
    { name: 'limitedBy', type: 'string', unit: '-', meaning: 'what takes the time' },
    { name: 'cautions', type: 'list', unit: '-', meaning: 'texts' },
  ],
  example: { ...PUMP_DOWN_EXAMPLE, ...HOSE_EXAMPLE, temperature_K: 293.15, water_kg: 0.05 },
  run: (input) => {
    const found = valueOf(
      evacuation({ ...pumpDownInput(input), ...wetSystem(input), ...numbers(input, 'temperature_K') }),
    );
    return {
      time_s: found.time_s,
      ...found.stages,
      floor_Pa: found.floor_Pa,
      iceWarning: found.iceWarning,
      limitedBy: found.limitedBy.text,
      cautions: found.cautions.map(({ text }) => text),
    };
  },
};

const tripleEvacuationCalculation: Calculation = {
  name: 'triple-evacuation',
  title: 'Pulls with dry nitrogen between them',
  formula: 't = sum of pulls + 2 soak; residual = product of P_i/P_before',
  source: 'mass balance; dilution of an ideal gas',
  fields: [
    VOLUME,
    ...PUMP_FIELDS,
    ...HOSE_FIELDS,
    CORES_FIELD,
    number('from_Pa', 'Pa', 'start, absolute'),
    number('shallowPull_Pa', 'Pa', 'end of the first and second pull, absolute'),
    number('lastPull_Pa', 'Pa', 'end of the third pull, absolute'),
    number('break_Pa', 'Pa', 'nitrogen between pulls, absolute'),
    number('soak_s', 's', 'rest at each break'),
    TEMPERATURE,
    GAS_LOAD,
    ...WATER_FIELDS,
  ],
  results: [
    number('time_s', 's', 'time of all pulls and soaks'),
    number('residualFraction', '-', 'share of the first gas left'),
    number('nitrogen_kg', 'kg', 'nitrogen of both breaks'),
    number('carriedWater_kg', 'kg', 'most water that the breaks can carry off'),
  ],
  example: {
    volume_m3: 2,
    ...PUMP_EXAMPLE,
    ...HOSE_EXAMPLE,
    from_Pa: 101325,
    shallowPull_Pa: 199.98,
    lastPull_Pa: 66.6612,
    break_Pa: 101325,
    soak_s: 1800,
    temperature_K: 293.15,
  },
  run: (input) => {
    const shallow_Pa = numberField(input, 'shallowPull_Pa');
    const { pulls: _, ...found } = valueOf(
      tripleEvacuation({
        ...numbers(input, 'volume_m3', 'from_Pa', 'break_Pa', 'soak_s', 'temperature_K'),
        ...wetSystem(input),
        pulls_Pa: [shallow_Pa, shallow_Pa, numberField(input, 'lastPull_Pa')],
      }),
    );
    return found;
  },
};

export const pumpingCalculations: readonly Calculation[] = [
  tubeConductanceCalculation,
  pumpDownCalculation,
  throughHoseCalculation,
  effectiveSpeedCalculation,
  evacuationCalculation,
  tripleEvacuationCalculation,
];
