import { type Calculation, numberField, optionalNumberField } from '@brimline/quantities';
import {
  HOSE_EXAMPLE,
  HOSE_FIELDS,
  number,
  numbers,
  optional,
  PUMP_EXAMPLE,
  PUMP_FIELDS,
  pumpOnHose,
} from './calculation-fields.ts';
import { dryingPlateau } from './drying.ts';
import { effectiveSpeed } from './effective-speed.ts';
import { waterPressure, waterVapourTolerance } from './water.ts';

const waterSaturationCalculation: Calculation = {
  name: 'water-saturation',
  title: 'Pressure of water or ice in a vacuum',
  formula: 'IAPWS-IF97 equation 30; below the triple point IAPWS R14-08 equation 6',
  source: 'IAPWS R7-97(2012); IAPWS R14-08(2011), from memory',
  fields: [number('temperature_K', 'K', 'temperature of the wet spot, 190 to 647')],
  results: [number('pressure_Pa', 'Pa', 'saturation pressure, absolute')],
  example: { temperature_K: 293.15 },
  run: (input) => ({ pressure_Pa: waterPressure(numberField(input, 'temperature_K')) }),
};

const dryingCalculation: Calculation = {
  name: 'drying',
  title: 'Plateau on which water dries under vacuum',
  formula: 'S(p) p M/(R T) = UA (T_amb - T_w)/h',
  source: 'mass and energy balances; IAPWS saturation',
  fields: [
    ...PUMP_FIELDS,
    ...HOSE_FIELDS,
    number('heat_W_K', 'W/K', 'heat conductance to the wet spot'),
    number('ambient_K', 'K', 'surroundings'),
    optional('gasLoad_Pa_m3_s', 'Pa m3/s', 'leak and outgassing beside the water, 0 unless given'),
  ],
  results: [
    number('waterTemperature_K', 'K', 'temperature of the water'),
    number('plateau_Pa', 'Pa', 'pressure of the plateau, absolute'),
    number('rate_kg_s', 'kg/s', 'drying rate'),
    { name: 'freezes', type: 'boolean', unit: '-', meaning: 'the water turns to ice' },
    number('leastHeat_W_K', 'W/K', 'heat conductance that keeps it liquid'),
  ],
  example: { ...PUMP_EXAMPLE, ...HOSE_EXAMPLE, heat_W_K: 20, ambient_K: 293.15 },
  run: (input) => {
    const pumps = [pumpOnHose(input)];
    return {
      ...dryingPlateau({
        speedAt: (pressure_Pa) => effectiveSpeed(pumps, pressure_Pa),
        ...numbers(input, 'heat_W_K', 'ambient_K'),
        gasLoad_Pa_m3_s: optionalNumberField(input, 'gasLoad_Pa_m3_s', 0),
      }),
    };
  },
};

const gasBallastCalculation: Calculation = {
  name: 'gas-ballast',
  title: 'Water vapour that a gas-ballast pump digests',
  formula: 'p_W = (B/S) p_out (p_s - p_a)/(p_out - p_s)',
  source: 'Umrath et al., Fundamentals of Vacuum Technology, from memory',
  fields: [
    number('ballastShare', '-', 'ballast flow over pump speed'),
    number('outlet_Pa', 'Pa', 'pressure at which the outlet valve opens, absolute'),
    number('saturation_Pa', 'Pa', "saturation of water at the pump's temperature, absolute"),
    number('ambientWater_Pa', 'Pa', 'water vapour in the ballast air, absolute'),
  ],
  results: [number('tolerance_Pa', 'Pa', 'highest water-vapour pressure at the inlet, absolute')],
  example: { ballastShare: 0.1, outlet_Pa: 133300, saturation_Pa: 31200, ambientWater_Pa: 1300 },
  run: (input) => ({
    tolerance_Pa: waterVapourTolerance(
      numbers(input, 'ballastShare', 'outlet_Pa', 'saturation_Pa', 'ambientWater_Pa'),
    ),
  }),
};

export const waterCalculations: readonly Calculation[] = [
  waterSaturationCalculation,
  dryingCalculation,
  gasBallastCalculation,
];
