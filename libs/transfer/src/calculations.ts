import {
  booleanField,
  type Calculation,
  CalculationInputError,
  choiceField,
  numberField,
  optionalNumberField,
} from '@brimline/quantities';
import { refrigerantField } from '@brimline/refrigerants';
import { boilOff } from './boil-off.ts';
import {
  type Input,
  MACHINE_FIELDS,
  machineField,
  number,
  optional,
  PATH_FIELD,
  pathField,
  REFRIGERANT,
} from './calculation-fields.ts';
import { flowCalculations } from './flow-calculations.ts';
import { frictionFactorChurchill } from './friction-factor.ts';
import { internalVolumeFromCharge } from './internal-volume.ts';
import { liquidFlow } from './liquid-flow.ts';
import { vapourPreCharge } from './pre-charge.ts';
import { transferTime } from './transfer-time.ts';
import { LIQUID_UTILISATION } from './utilisation.ts';
import { vapourRecovery } from './vapour-recovery.ts';

function setupField(input: Input): Input {
  const setup = input['setup'];
  if (typeof setup !== 'object' || setup === null || Array.isArray(setup)) {
    throw new CalculationInputError(
      'setup',
      setup,
      'an object with method, vapourRate_kg_s, bore_m and others',
    );
  }
  return setup as Input;
}

function runTransferTime(input: Input): Input {
  const setup = setupField(input);
  const bore_m = numberField(setup, 'bore_m');
  const machine = machineField(setup);
  const count = optionalNumberField(setup, 'machines', 1);
  if (!Number.isInteger(count) || count < 1 || count > 8)
    throw new CalculationInputError('machines', count, '1 to 8');
  const { time_s, rate_kg_s, limitedBy } = transferTime({
    refrigerant: refrigerantField(input),
    mass_kg: numberField(input, 'mass_kg'),
    temperature_K: numberField(input, 'temperature_K'),
    setup: {
      method: choiceField(setup, 'method', ['direct', 'push-pull']),
      machines: Array.from({ length: count }, () => machine),
      hose: {
        bore_m,
        length_m: optionalNumberField(setup, 'length_m', 3),
        fittingBore_m: optionalNumberField(setup, 'fittingBore_m', bore_m * 0.8),
        valveBore_m: optionalNumberField(setup, 'valveBore_m', bore_m * 0.74),
        roughness_m: optionalNumberField(setup, 'roughness_m', 1e-5),
      },
      coresLeftIn: optionalNumberField(setup, 'coresLeftIn', 0),
      coolerBypassed: booleanField(setup, 'coolerBypassed', true),
      head_m: optionalNumberField(setup, 'head_m', 0),
      utilisation: optionalNumberField(setup, 'utilisation', LIQUID_UTILISATION),
    },
  });
  return { time_s, rate_kg_s, limitedBy: limitedBy.text };
}

const MACHINE_EXAMPLE = {
  vapourRate_kg_s: 0.00378,
  directLiquidRate_kg_s: 0.0567,
  ratingRefrigerant: 'R-134a',
};

export const calculations: readonly Calculation[] = [
  {
    name: 'hose-flow',
    title: 'Liquid flow through a hose path',
    formula:
      'dP = sum of (f L/D + K) rho v^2/2 over the pieces, solved for the mass flow; f by Churchill 1977',
    source: 'Darcy and Weisbach; S. W. Churchill, Chemical Engineering 84 (1977), from memory',
    fields: [
      number('density_kg_m3', 'kg/m3', 'density of the liquid'),
      number('viscosity_Pa_s', 'Pa s', 'dynamic viscosity of the liquid'),
      number('pressureDifference_Pa', 'Pa', 'driving pressure difference, static head included'),
      PATH_FIELD,
    ],
    results: [
      number('massFlow_kg_s', 'kg/s', 'mass flow'),
      number('velocity_m_s', 'm/s', 'velocity in the first piece'),
      number('reynolds', '-', 'Reynolds number in the first piece'),
    ],
    example: {
      density_kg_m3: 1210.5,
      viscosity_Pa_s: 0.000195,
      pressureDifference_Pa: 34474,
      path: [{ bore_m: 0.0095, length_m: 3, roughness_m: 0.00001, lossCoefficient: 8 }],
    },
    run: (input) => ({
      ...liquidFlow({
        density_kg_m3: numberField(input, 'density_kg_m3'),
        viscosity_Pa_s: numberField(input, 'viscosity_Pa_s'),
        pressureDifference_Pa: numberField(input, 'pressureDifference_Pa'),
        path: pathField(input),
      }),
    }),
  },
  {
    name: 'transfer-time',
    title: 'Time to move liquid refrigerant',
    formula:
      't = mass / (utilisation x steady rate); direct: least of machine and choked hose; push-pull: vapour, hose and receiver in balance',
    source:
      'mass and energy balances; Leung, AIChE J. 32 (1986) 1743, from memory; utilisation from common practice, no source',
    fields: [
      REFRIGERANT,
      number('mass_kg', 'kg', 'liquid to move'),
      {
        name: 'setup',
        type: 'object',
        unit: '-',
        meaning:
          'method (direct or push-pull), machines (how many), vapourRate_kg_s, directLiquidRate_kg_s, ratingRefrigerant, bore_m, length_m, fittingBore_m, valveBore_m, coresLeftIn, coolerBypassed, cooler_W_K, head_m, utilisation',
      },
      number('temperature_K', 'K', 'temperature of the liquid'),
    ],
    results: [
      number('time_s', 's', 'time'),
      number('rate_kg_s', 'kg/s', 'mean rate'),
      { name: 'limitedBy', type: 'string', unit: '-', meaning: 'what sets the pace' },
    ],
    example: {
      refrigerant: 'R-134a',
      mass_kg: 108.86,
      temperature_K: 297.15,
      setup: {
        method: 'push-pull',
        ...MACHINE_EXAMPLE,
        bore_m: 0.0095,
        fittingBore_m: 0.0075,
        valveBore_m: 0.007,
      },
    },
    run: runTransferTime,
  },
  {
    name: 'friction-factor',
    title: 'Darcy friction factor, laminar to rough',
    formula: 'f = 8 [ (8/Re)^12 + 1/(A+B)^1.5 ]^(1/12)',
    source: 'S. W. Churchill, Chemical Engineering 84 (1977), from memory',
    fields: [
      number('reynolds', '-', 'Reynolds number'),
      number('relativeRoughness', '-', 'wall roughness over bore'),
    ],
    results: [number('frictionFactor', '-', 'Darcy friction factor')],
    example: { reynolds: 100000, relativeRoughness: 0.0001 },
    run: (input) => ({
      frictionFactor: frictionFactorChurchill(
        numberField(input, 'reynolds'),
        numberField(input, 'relativeRoughness'),
      ),
    }),
  },
  {
    name: 'vapour-recovery',
    title: 'Time to draw vapour down to a level',
    formula: 't = integral of V d(rho) / (V0 eta rho)',
    source: 'mass balance; clearance loss of a piston machine',
    fields: [
      REFRIGERANT,
      number('volume_m3', 'm3', 'refrigerant-side volume'),
      number('temperature_K', 'K', 'temperature of the walls'),
      number('endPressure_Pa', 'Pa', 'level to reach, absolute'),
      ...MACHINE_FIELDS,
      optional(
        'dischargePressure_Pa',
        'Pa',
        'discharge pressure; saturation 5 K above the walls unless given',
      ),
    ],
    results: [
      number('time_s', 's', 'time at full utilisation'),
      number('start_kg', 'kg', 'vapour at the start'),
      number('left_kg', 'kg', 'vapour left at the level'),
      { name: 'limitedBy', type: 'string', unit: '-', meaning: 'what sets the pace' },
    ],
    example: {
      refrigerant: 'R-134a',
      volume_m3: 2,
      temperature_K: 297.15,
      endPressure_Pa: 67460,
      vapourRate_kg_s: 0.00756,
    },
    run: (input) => {
      const result = vapourRecovery({
        refrigerant: refrigerantField(input),
        volume_m3: numberField(input, 'volume_m3'),
        temperature_K: numberField(input, 'temperature_K'),
        endPressure_Pa: numberField(input, 'endPressure_Pa'),
        machines: [machineField(input)],
        ...(input['dischargePressure_Pa'] === undefined
          ? {}
          : { dischargePressure_Pa: numberField(input, 'dischargePressure_Pa') }),
      });
      if (!result.ok)
        throw new CalculationInputError(
          'endPressure_Pa',
          input['endPressure_Pa'],
          result.problems[0]!.message,
        );
      const { time_s, start_kg, left_kg, limitedBy } = result.value;
      return { time_s, start_kg, left_kg, limitedBy: limitedBy.text };
    },
  },
  {
    name: 'boil-off',
    title: 'Liquid left that boils off by the heat it gets',
    formula: 'V0 rhoV(Te) h_fg(Te) = UA (T_heat - Te)',
    source: 'energy balance',
    fields: [
      REFRIGERANT,
      ...MACHINE_FIELDS,
      number('conductance_W_K', 'W/K', 'heat conductance to the liquid'),
      number('heatSource_K', 'K', 'temperature of water or air'),
      optional('freezingPoint_K', 'K', 'freezing point of still fluid in the tubes'),
    ],
    results: [
      number('massFlow_kg_s', 'kg/s', 'rate'),
      number('evaporation_K', 'K', 'boiling temperature'),
      { name: 'freezing', type: 'string', unit: '-', meaning: 'none, near or hazard' },
    ],
    example: {
      refrigerant: 'R-134a',
      vapourRate_kg_s: 0.00756,
      conductance_W_K: 200,
      heatSource_K: 297.15,
      freezingPoint_K: 273.15,
    },
    run: (input) => ({
      ...boilOff({
        refrigerant: refrigerantField(input),
        machines: [machineField(input)],
        conductance_W_K: numberField(input, 'conductance_W_K'),
        heatSource_K: numberField(input, 'heatSource_K'),
        ...(input['freezingPoint_K'] === undefined
          ? {}
          : { freezingPoint_K: numberField(input, 'freezingPoint_K') }),
      }),
    }),
  },
  {
    name: 'pre-charge',
    title: 'Vapour that lifts an evacuated machine above freezing',
    formula: 'm = rhoV(Tf + margin) V; time by hose or by heat into the cylinders',
    source: 'mass and energy balances; margin 2 K assumed',
    fields: [
      REFRIGERANT,
      number('volume_m3', 'm3', 'refrigerant-side volume'),
      number('freezingPoint_K', 'K', 'freezing point of the fluid in the evaporator'),
      number('ambient_K', 'K', 'temperature round the cylinders'),
      number('cylinders', '-', 'cylinders on the manifold'),
      number('liquid_kg', 'kg', 'liquid in each'),
      number('steel_kg', 'kg', 'steel of each'),
      number('lineFlow_kg_s', 'kg/s', 'what the hose passes from each'),
    ],
    results: [
      number('mass_kg', 'kg', 'vapour needed'),
      number('time_s', 's', 'time'),
      number('safe_K', 'K', 'safe saturation temperature'),
      number('safePressure_Pa', 'Pa', 'its pressure, absolute'),
      { name: 'limitedBy', type: 'string', unit: '-', meaning: 'what sets the pace' },
      {
        name: 'needsHeating',
        type: 'boolean',
        unit: '-',
        meaning: 'the air is too cold to feed vapour from: warm the cylinders in water, never with flame',
      },
    ],
    example: {
      refrigerant: 'R-134a',
      volume_m3: 2,
      freezingPoint_K: 273.15,
      ambient_K: 297.15,
      cylinders: 3,
      liquid_kg: 45.4,
      steel_kg: 25,
      lineFlow_kg_s: 0.02,
    },
    run: (input) => ({
      ...vapourPreCharge({
        refrigerant: refrigerantField(input),
        volume_m3: numberField(input, 'volume_m3'),
        freezingPoint_K: numberField(input, 'freezingPoint_K'),
        ambient_K: numberField(input, 'ambient_K'),
        cylinders: Array.from(
          { length: Math.max(1, Math.min(99, Math.round(numberField(input, 'cylinders')))) },
          () => ({
            liquid_kg: numberField(input, 'liquid_kg'),
            steel_kg: numberField(input, 'steel_kg'),
          }),
        ),
        lineFlow_kg_s: numberField(input, 'lineFlow_kg_s'),
      }),
    }),
  },
  {
    name: 'internal-volume',
    title: 'Refrigerant-side volume guessed from the charge',
    formula: 'V = M / (rhoL f)',
    source: 'conservation of mass; shares assumed, low confidence',
    fields: [
      REFRIGERANT,
      number('charge_kg', 'kg', 'nameplate charge'),
      {
        name: 'evaporator',
        type: 'string',
        unit: '-',
        meaning: 'kind of evaporator',
        allowed: 'direct-expansion, flooded, falling-film',
      },
    ],
    results: [
      number('volume_m3', 'm3', 'likely volume'),
      number('low_m3', 'm3', 'low'),
      number('high_m3', 'm3', 'high'),
    ],
    example: { refrigerant: 'R-134a', charge_kg: 453.59, evaporator: 'flooded' },
    run: (input) => {
      const { volume_m3, low_m3, high_m3 } = internalVolumeFromCharge({
        refrigerant: refrigerantField(input),
        charge_kg: numberField(input, 'charge_kg'),
        evaporator: choiceField(input, 'evaporator', ['direct-expansion', 'flooded', 'falling-film']),
      });
      return { volume_m3, low_m3, high_m3 };
    },
  },
  ...flowCalculations,
];
