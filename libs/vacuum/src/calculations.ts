import { type Calculation, numberField, optionalNumberField, textField } from '@brimline/quantities';
import { tubeConductance } from './conductance.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { gasNamed, GASES } from './gases.ts';
import { nitrogenUse, smallestLeakSeen } from './nitrogen-test.ts';
import { pumpDownTime, pumpDownTimeThroughHose } from './pump-down.ts';
import { leakRate } from './rise-test.ts';
import { dryingPlateau, waterPressure } from './water.ts';

type Input = Readonly<Record<string, unknown>>;
const number = (name: string, unit: string, meaning: string) =>
  ({ name, type: 'number', unit, meaning }) as const;
const optional = (name: string, unit: string, meaning: string) =>
  ({ ...number(name, unit, meaning), optional: true }) as const;

const PUMP_DOWN_FIELDS = [
  number('volume_m3', 'm3', 'volume to evacuate'),
  number('speed_m3_s', 'm3/s', 'pump speed'),
  number('ultimate_Pa', 'Pa', 'ultimate pressure of the pump, absolute'),
  number('from_Pa', 'Pa', 'start, absolute'),
  number('to_Pa', 'Pa', 'target, absolute'),
] as const;

function pumpDownInput(input: Input): Parameters<typeof pumpDownTime>[0] {
  return {
    volume_m3: numberField(input, 'volume_m3'),
    speed_m3_s: numberField(input, 'speed_m3_s'),
    ultimate_Pa: numberField(input, 'ultimate_Pa'),
    from_Pa: numberField(input, 'from_Pa'),
    to_Pa: numberField(input, 'to_Pa'),
    gasLoad_Pa_m3_s: optionalNumberField(input, 'gasLoad_Pa_m3_s', 0),
  };
}

function pumpOnHose(input: Input) {
  return {
    speed_m3_s: numberField(input, 'speed_m3_s'),
    ultimate_Pa: numberField(input, 'ultimate_Pa'),
    hose: { bore_m: numberField(input, 'bore_m'), length_m: numberField(input, 'length_m') },
  };
}

const PUMP_EXAMPLE = {
  volume_m3: 2,
  speed_m3_s: 0.0037755796,
  ultimate_Pa: 2.666448,
  from_Pa: 101325,
  to_Pa: 66.6612,
};
const HOSE_FIELDS = [number('bore_m', 'm', 'hose bore'), number('length_m', 'm', 'hose length')] as const;

export const calculations: readonly Calculation[] = [
  {
    name: 'tube-conductance',
    title: 'Conductance of a vacuum hose',
    formula: 'C = pi d^4 p/(128 eta l) + c pi d^3/(12 l) (1 + 192 d p)/(1 + 237 d p)',
    source: 'M. Knudsen 1909, in the form of Umrath et al., Fundamentals of Vacuum Technology, from memory',
    fields: [
      ...HOSE_FIELDS,
      number('meanPressure_Pa', 'Pa', 'mean of both ends, absolute'),
      number('temperature_K', 'K', 'temperature'),
      {
        name: 'gas',
        type: 'string',
        unit: '-',
        meaning: 'gas',
        allowed: Object.keys(GASES).join(', '),
        optional: true,
      },
    ],
    results: [
      number('conductance_m3_s', 'm3/s', 'conductance'),
      { name: 'regime', type: 'string', unit: '-', meaning: 'viscous, transition or molecular' },
    ],
    example: { bore_m: 0.019, length_m: 3, meanPressure_Pa: 66.6612, temperature_K: 293.15, gas: 'air' },
    run: (input) => ({
      ...tubeConductance({
        bore_m: numberField(input, 'bore_m'),
        length_m: numberField(input, 'length_m'),
        meanPressure_Pa: numberField(input, 'meanPressure_Pa'),
        temperature_K: numberField(input, 'temperature_K'),
        gas: gasNamed(input['gas'] === undefined ? 'air' : textField(input, 'gas')),
      }),
    }),
  },
  {
    name: 'pump-down',
    title: 'Time to evacuate a dry volume at constant speed',
    formula: 't = (V/S) ln[(P0 - Pf)/(P - Pf)], Pf = Pu + Q/S',
    source: 'mass balance; Umrath et al., Fundamentals of Vacuum Technology',
    fields: [...PUMP_DOWN_FIELDS, optional('gasLoad_Pa_m3_s', 'Pa m3/s', 'leak and outgassing')],
    results: [number('time_s', 's', 'time')],
    example: PUMP_EXAMPLE,
    run: (input) => ({ time_s: pumpDownTime(pumpDownInput(input)) }),
  },
  {
    name: 'pump-down-through-hose',
    title: 'Time to evacuate a dry volume through a hose',
    formula: 't = pump term + (V/b) ln[1 + 2 b/(a P)], a = 1349 d^4/l, b = 98.2 d^3/l',
    source: 'derived from the conductance with the pump end at zero pressure',
    fields: [...PUMP_DOWN_FIELDS, ...HOSE_FIELDS],
    results: [number('time_s', 's', 'time')],
    example: { ...PUMP_EXAMPLE, bore_m: 0.019, length_m: 3 },
    run: (input) => ({
      time_s: pumpDownTimeThroughHose({
        ...pumpDownInput(input),
        bore_m: numberField(input, 'bore_m'),
        length_m: numberField(input, 'length_m'),
      }),
    }),
  },
  {
    name: 'effective-speed',
    title: 'Speed of a pump at the far end of its hose',
    formula: 'C((P + Pp)/2)(P - Pp) = S0 (Pp - Pu); S = S0 (Pp - Pu)/P',
    source: 'mass balance',
    fields: [
      PUMP_DOWN_FIELDS[1],
      PUMP_DOWN_FIELDS[2],
      ...HOSE_FIELDS,
      number('pressure_Pa', 'Pa', 'in the vessel, absolute'),
    ],
    results: [number('speed_m3_s', 'm3/s', 'speed at the vessel')],
    example: {
      speed_m3_s: 0.0037755796,
      ultimate_Pa: 2.666448,
      bore_m: 0.019,
      length_m: 3,
      pressure_Pa: 66.6612,
    },
    run: (input) => ({ speed_m3_s: effectiveSpeed([pumpOnHose(input)], numberField(input, 'pressure_Pa')) }),
  },
  {
    name: 'water-saturation',
    title: 'Pressure of water or ice in a vacuum',
    formula: 'IAPWS-IF97 equation 30; below the triple point IAPWS R14-08 equation 6',
    source: 'IAPWS R7-97(2012); IAPWS R14-08(2011), from memory',
    fields: [number('temperature_K', 'K', 'temperature of the wet spot, 190 to 647')],
    results: [number('pressure_Pa', 'Pa', 'saturation pressure, absolute')],
    example: { temperature_K: 293.15 },
    run: (input) => ({ pressure_Pa: waterPressure(numberField(input, 'temperature_K')) }),
  },
  {
    name: 'drying',
    title: 'Plateau on which water dries under vacuum',
    formula: 'S(p) p M/(R T) = UA (T_amb - T_w)/h',
    source: 'mass and energy balances; IAPWS saturation',
    fields: [
      PUMP_DOWN_FIELDS[1],
      PUMP_DOWN_FIELDS[2],
      ...HOSE_FIELDS,
      number('heat_W_K', 'W/K', 'heat conductance to the wet spot'),
      number('ambient_K', 'K', 'surroundings'),
    ],
    results: [
      number('waterTemperature_K', 'K', 'temperature of the water'),
      number('plateau_Pa', 'Pa', 'pressure of the plateau, absolute'),
      number('rate_kg_s', 'kg/s', 'drying rate'),
      { name: 'freezes', type: 'boolean', unit: '-', meaning: 'the water turns to ice' },
    ],
    example: {
      speed_m3_s: 0.0037755796,
      ultimate_Pa: 2.666448,
      bore_m: 0.019,
      length_m: 3,
      heat_W_K: 20,
      ambient_K: 293.15,
    },
    run: (input) => {
      const pump = pumpOnHose(input);
      const speedAt = (pressure_Pa: number): number => effectiveSpeed([pump], pressure_Pa);
      return { ...dryingPlateau(speedAt, numberField(input, 'heat_W_K'), numberField(input, 'ambient_K')) };
    },
  },
  {
    name: 'rise-test',
    title: 'Leak rate from a rise test',
    formula: 'Q = V dP/dt',
    source: 'mass balance',
    fields: [
      number('volume_m3', 'm3', 'isolated volume'),
      number('rise_Pa', 'Pa', 'rise'),
      number('time_s', 's', 'time'),
    ],
    results: [number('leakRate_Pa_m3_s', 'Pa m3/s', 'gas load')],
    example: { volume_m3: 2, rise_Pa: 13.33224, time_s: 3600 },
    run: (input) => ({
      leakRate_Pa_m3_s: leakRate(
        numberField(input, 'volume_m3'),
        numberField(input, 'rise_Pa'),
        numberField(input, 'time_s'),
      ),
    }),
  },
  {
    name: 'nitrogen-test',
    title: 'Nitrogen for a pressure test',
    formula: 'm = V [rho(P_test) - rho(P_start)]; cylinders = ceil(m / usable mass of each)',
    source: 'mass balance with real-gas density',
    fields: [
      number('volume_m3', 'm3', 'volume to pressurise'),
      number('testPressure_Pa', 'Pa', 'test pressure, absolute'),
      number('startPressure_Pa', 'Pa', 'start, absolute'),
      number('temperature_K', 'K', 'temperature'),
      number('cylinderVolume_m3', 'm3', 'water volume of a nitrogen cylinder'),
      number('fillPressure_Pa', 'Pa', 'its full pressure, absolute'),
    ],
    results: [number('mass_kg', 'kg', 'nitrogen'), number('cylinders', '-', 'whole cylinders')],
    example: {
      volume_m3: 2,
      testPressure_Pa: 1135539,
      startPressure_Pa: 101325,
      temperature_K: 293.15,
      cylinderVolume_m3: 0.0491,
      fillPressure_Pa: 18.3e6,
    },
    run: (input) => ({
      ...nitrogenUse({
        volume_m3: numberField(input, 'volume_m3'),
        testPressure_Pa: numberField(input, 'testPressure_Pa'),
        startPressure_Pa: numberField(input, 'startPressure_Pa'),
        temperature_K: numberField(input, 'temperature_K'),
        cylinderVolume_m3: numberField(input, 'cylinderVolume_m3'),
        fillPressure_Pa: numberField(input, 'fillPressure_Pa'),
      }),
    }),
  },
  {
    name: 'smallest-leak',
    title: 'Smallest leak that a pressure hold can see',
    formula: 'Q = V (gauge step + P dT/T)/t',
    source: 'error propagation on the ideal gas law',
    fields: [
      number('volume_m3', 'm3', 'volume under test'),
      number('time_s', 's', 'length of the hold'),
      number('gaugeStep_Pa', 'Pa', 'smallest step of the gauge'),
      number('pressure_Pa', 'Pa', 'test pressure, absolute'),
      number('temperatureError_K', 'K', 'uncertainty of the mean temperature'),
      number('temperature_K', 'K', 'temperature'),
    ],
    results: [number('leakRate_Pa_m3_s', 'Pa m3/s', 'smallest leak')],
    example: {
      volume_m3: 2,
      time_s: 86400,
      gaugeStep_Pa: 1723.7,
      pressure_Pa: 1135539,
      temperatureError_K: 0.3,
      temperature_K: 298.15,
    },
    run: (input) => ({
      leakRate_Pa_m3_s: smallestLeakSeen({
        volume_m3: numberField(input, 'volume_m3'),
        time_s: numberField(input, 'time_s'),
        gaugeStep_Pa: numberField(input, 'gaugeStep_Pa'),
        pressure_Pa: numberField(input, 'pressure_Pa'),
        temperatureError_K: numberField(input, 'temperatureError_K'),
        temperature_K: numberField(input, 'temperature_K'),
      }),
    }),
  },
];
