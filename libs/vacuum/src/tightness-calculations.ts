import { type Calculation, numberField, objectListField, optionalNumberField } from '@brimline/quantities';
import { number, numbers, optional, TEMPERATURE } from './calculation-fields.ts';
import { nitrogenUse, settlingTime } from './nitrogen-test.ts';
import { correctedDrop, holdPressure, refrigerantLeakRatio, smallestLeakSeen } from './pressure-hold.ts';
import { judgeRise, leakRate } from './rise-test.ts';

const riseTestCalculation: Calculation = {
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
};

const riseVerdictCalculation: Calculation = {
  name: 'rise-verdict',
  title: 'Tight, leak or moisture from the readings of a rise test',
  formula: 'P = P0 + (Q/V) t + D (1 - exp(-t/tau)), fitted; a leak when Q/V is above half of the mean slope',
  source: 'service literature for the cause; robust least squares; shares assumed, medium confidence',
  fields: [
    {
      name: 'readings',
      type: 'list',
      unit: '-',
      meaning: 'objects with time_s and pressure_Pa, in time order',
    },
    number('volume_m3', 'm3', 'isolated volume'),
    number('allowedRise_Pa', 'Pa', 'rise that still passes'),
    optional('leastTime_s', 's', 'time that the test must last, 0 unless given'),
    optional('ambient_K', 'K', 'room temperature, 293.15 unless given'),
  ],
  results: [
    { name: 'verdict', type: 'string', unit: '-', meaning: 'tight, leak, moisture or undecided' },
    number('rise_Pa', 'Pa', 'rise'),
    number('leakRate_Pa_m3_s', 'Pa m3/s', 'gas load that goes on'),
    number('leakRateLow_Pa_m3_s', 'Pa m3/s', 'its lower limit'),
    number('leakRateHigh_Pa_m3_s', 'Pa m3/s', 'its upper limit'),
  ],
  example: {
    readings: [0, 600, 1200, 1800, 2400, 3000].map((time_s) => ({ time_s, pressure_Pa: 40 + time_s / 50 })),
    volume_m3: 2,
    allowedRise_Pa: 30,
  },
  run: (input) => {
    const readings = objectListField(input, 'readings').map((one) => numbers(one, 'time_s', 'pressure_Pa'));
    const { fit: _, ...found } = judgeRise(readings, {
      ...numbers(input, 'volume_m3', 'allowedRise_Pa'),
      leastTime_s: optionalNumberField(input, 'leastTime_s', 0),
      ambient_K: optionalNumberField(input, 'ambient_K', 293.15),
    });
    return found;
  },
};

const nitrogenTestCalculation: Calculation = {
  name: 'nitrogen-test',
  title: 'Nitrogen for a pressure test',
  formula: 'm = V [rho(P_test) - rho(P_start)]; cylinders = ceil(m / usable mass of each)',
  source: 'mass balance with real-gas density',
  fields: [
    number('volume_m3', 'm3', 'volume to pressurise'),
    number('testPressure_Pa', 'Pa', 'test pressure, absolute'),
    number('startPressure_Pa', 'Pa', 'start, absolute'),
    TEMPERATURE,
    number('cylinderVolume_m3', 'm3', 'water volume of a nitrogen cylinder'),
    number('fillPressure_Pa', 'Pa', 'its full pressure, absolute'),
  ],
  results: [
    number('mass_kg', 'kg', 'nitrogen'),
    number('cylinders', '-', 'whole cylinders'),
    number('fromEach_kg', 'kg', 'usable in a full cylinder'),
  ],
  example: {
    volume_m3: 2,
    testPressure_Pa: 1135539,
    startPressure_Pa: 101325,
    temperature_K: 293.15,
    cylinderVolume_m3: 0.0491,
    fillPressure_Pa: 18.3e6,
  },
  run: (input) => ({
    ...nitrogenUse(
      numbers(
        input,
        'volume_m3',
        'testPressure_Pa',
        'startPressure_Pa',
        'temperature_K',
        'cylinderVolume_m3',
        'fillPressure_Pa',
      ),
    ),
  }),
};

const holdCorrectionCalculation: Calculation = {
  name: 'hold-correction',
  title: 'Pressure hold with the temperature taken out',
  formula: 'P2 = P1 T2/T1; drop by leaks = P1 - P2 T1/T2',
  source: 'ideal gas law',
  fields: [
    number('firstPressure_Pa', 'Pa', 'at the start, absolute'),
    number('firstTemperature_K', 'K', 'metal at the start'),
    number('lastPressure_Pa', 'Pa', 'at the end, absolute'),
    number('lastTemperature_K', 'K', 'metal at the end'),
  ],
  results: [
    number('expectedPressure_Pa', 'Pa', 'at the end without a leak, absolute'),
    number('correctedDrop_Pa', 'Pa', 'lost to leaks'),
  ],
  example: {
    firstPressure_Pa: 1135539,
    firstTemperature_K: 298.15,
    lastPressure_Pa: 1097000,
    lastTemperature_K: 288.15,
  },
  run: (input) => {
    const first = {
      pressure_Pa: numberField(input, 'firstPressure_Pa'),
      temperature_K: numberField(input, 'firstTemperature_K'),
    };
    const last = {
      pressure_Pa: numberField(input, 'lastPressure_Pa'),
      temperature_K: numberField(input, 'lastTemperature_K'),
    };
    return {
      expectedPressure_Pa: holdPressure(first.pressure_Pa, first.temperature_K, last.temperature_K),
      correctedDrop_Pa: correctedDrop(first, last),
    };
  },
};

const smallestLeakCalculation: Calculation = {
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
    TEMPERATURE,
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
    leakRate_Pa_m3_s: smallestLeakSeen(
      numbers(
        input,
        'volume_m3',
        'time_s',
        'gaugeStep_Pa',
        'pressure_Pa',
        'temperatureError_K',
        'temperature_K',
      ),
    ),
  }),
};

const settlingCalculation: Calculation = {
  name: 'settling',
  title: 'Rest before a pressure hold',
  formula: 't = tau ln(dT0/dT)',
  source: 'exponential approach',
  fields: [
    number('offset_K', 'K', 'gas against metal just after filling'),
    number('allowed_K', 'K', 'difference that the hold can bear'),
    number('timeConstant_s', 's', 'time constant, measured on the job'),
  ],
  results: [number('time_s', 's', 'rest')],
  example: { offset_K: 10, allowed_K: 0.3, timeConstant_s: 600 },
  run: (input) => ({ time_s: settlingTime(numbers(input, 'offset_K', 'allowed_K', 'timeConstant_s')) }),
};

const refrigerantLeakCalculation: Calculation = {
  name: 'refrigerant-leak-ratio',
  title: 'Refrigerant leak through the channel that leaked nitrogen',
  formula: '(eta_N2/eta_ref)(P1^2 - P0^2)_ref/(P1^2 - P0^2)_N2',
  source: "Poiseuille's law for a gas",
  fields: [
    number('nitrogen_Pa', 'Pa', 'test pressure, absolute'),
    number('refrigerant_Pa', 'Pa', 'pressure in service, absolute'),
    number('refrigerantViscosity_Pa_s', 'Pa s', 'viscosity of its vapour'),
    number('outside_Pa', 'Pa', 'pressure outside, absolute'),
  ],
  results: [number('ratio', '-', 'pV flow of refrigerant over that of nitrogen')],
  example: {
    nitrogen_Pa: 1135539,
    refrigerant_Pa: 645800,
    refrigerantViscosity_Pa_s: 11.7e-6,
    outside_Pa: 101325,
  },
  run: (input) => ({
    ratio: refrigerantLeakRatio(
      numbers(input, 'nitrogen_Pa', 'refrigerant_Pa', 'refrigerantViscosity_Pa_s', 'outside_Pa'),
    ),
  }),
};

export const tightnessCalculations: readonly Calculation[] = [
  riseTestCalculation,
  riseVerdictCalculation,
  nitrogenTestCalculation,
  holdCorrectionCalculation,
  smallestLeakCalculation,
  settlingCalculation,
  refrigerantLeakCalculation,
];
