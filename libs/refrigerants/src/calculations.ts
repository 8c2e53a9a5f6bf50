import { type Calculation, CalculationInputError, numberField } from '@brimline/quantities';
import type { Refrigerant } from './refrigerant.ts';
import { refrigerantField, refrigerantNames } from './refrigerant.ts';
import { bubbleTemperature, dewPressure, dewTemperature, requireTabulated } from './saturation.ts';
import { saturationAt } from './saturation-state.ts';
import { vapourDensity } from './vapour-density.ts';

const REFRIGERANT_FIELD = {
  name: 'refrigerant',
  type: 'string',
  unit: '-',
  meaning: 'ASHRAE number',
  allowed: refrigerantNames().join(', '),
} as const;

const SOURCE = 'equation of state of each refrigerant, tabulated at 1 K; named in its data file';

type Input = Readonly<Record<string, unknown>>;

/** The temperature asked for, or that at which the bubble (or dew) pressure is the one given. */
function saturationTemperature(r: Refrigerant, input: Input): number {
  const byPressure = input['pressure_Pa'] !== undefined;
  if (byPressure === (input['temperature_K'] !== undefined)) {
    throw new CalculationInputError(
      'temperature_K',
      input['temperature_K'],
      'exactly one of temperature_K and pressure_Pa',
    );
  }
  if (!byPressure) return numberField(input, 'temperature_K');
  return bubbleTemperature(r, numberField(input, 'pressure_Pa'));
}

/** Bubble and dew temperature at the pressure given; the dew temperature is null when it lies above the table. */
function temperaturesAt(r: Refrigerant, input: Input): Readonly<Record<string, number | null>> {
  if (input['pressure_Pa'] === undefined) return {};
  const pressure_Pa = numberField(input, 'pressure_Pa');
  return {
    bubbleTemperature_K: bubbleTemperature(r, pressure_Pa),
    dewTemperature_K: pressure_Pa > dewPressure(r, r.tableMaximum_K) ? null : dewTemperature(r, pressure_Pa),
  };
}

function runSaturation(input: Input): Readonly<Record<string, unknown>> {
  const r = refrigerantField(input);
  const temperature_K = saturationTemperature(r, input);
  requireTabulated(r, temperature_K);
  return { ...saturationAt(r, temperature_K), ...temperaturesAt(r, input) };
}

const field = (name: string, unit: string, meaning: string) =>
  ({ name, type: 'number', unit, meaning }) as const;
const optional = (name: string, unit: string, meaning: string) =>
  ({ ...field(name, unit, meaning), optional: true }) as const;

const saturation: Calculation = {
  name: 'saturation',
  title: 'Saturation of a refrigerant',
  formula: 'ln p, rho and h interpolated over T by piecewise cubics; inverse by Newton on the same cubic',
  source: SOURCE,
  fields: [
    REFRIGERANT_FIELD,
    optional('temperature_K', 'K', 'temperature; give this or the pressure'),
    optional('pressure_Pa', 'Pa', 'absolute pressure; give this or the temperature'),
  ],
  results: [
    field(
      'temperature_K',
      'K',
      'temperature of every result below; for a pressure given, the bubble temperature',
    ),
    optional('bubbleTemperature_K', 'K', 'where the liquid boils at the pressure given'),
    optional(
      'dewTemperature_K',
      'K',
      'where the vapour condenses at the pressure given; null when above the table',
    ),
    field('bubblePressure_Pa', 'Pa', 'absolute bubble pressure at temperature_K'),
    field('dewPressure_Pa', 'Pa', 'absolute dew pressure at temperature_K'),
    field('liquidDensity_kg_m3', 'kg/m3', 'liquid at the bubble point'),
    field('vapourDensity_kg_m3', 'kg/m3', 'vapour at the dew point'),
    field('latentHeat_J_kg', 'J/kg', 'vapour at the dew point less liquid at the bubble point'),
    field('liquidHeatCapacity_J_kgK', 'J/(kg K)', 'isobaric, liquid at the bubble point'),
    field('vapourHeatCapacity_J_kgK', 'J/(kg K)', 'isobaric, vapour at the dew point'),
    field('vapourHeatCapacityRatio', '-', 'cp/cv, vapour at the dew point'),
    field('vapourSpeedOfSound_m_s', 'm/s', 'vapour at the dew point'),
    field('secondVirial_m3_kg', 'm3/kg', 'second virial coefficient by mass'),
    optional('liquidViscosity_Pa_s', 'Pa s', 'liquid; null where none is held'),
    optional('vapourViscosity_Pa_s', 'Pa s', 'vapour; null where none is held'),
  ],
  example: { refrigerant: 'R-134a', temperature_K: 298.15 },
  run: runSaturation,
};

const vapour: Calculation = {
  name: 'vapour-density',
  title: 'Density of refrigerant vapour below saturation',
  formula:
    'p = rho R T (1 + B rho + C rho^2 + D rho^3), C and D such that the dew density and the slope dp/drho there are met',
  source: SOURCE,
  fields: [
    REFRIGERANT_FIELD,
    field('temperature_K', 'K', 'temperature of the vapour'),
    field('pressure_Pa', 'Pa', 'absolute pressure, up to the dew pressure'),
  ],
  results: [field('density_kg_m3', 'kg/m3', 'density of the vapour')],
  example: { refrigerant: 'R-134a', temperature_K: 297.15, pressure_Pa: 67460 },
  run: (input) => ({
    density_kg_m3: vapourDensity(
      refrigerantField(input),
      numberField(input, 'temperature_K'),
      numberField(input, 'pressure_Pa'),
    ),
  }),
};

export const calculations: readonly Calculation[] = [saturation, vapour];
