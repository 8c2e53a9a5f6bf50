import { KELVIN_AT_ZERO_CELSIUS, MOLAR_GAS_CONSTANT_J_MOL_K } from '@brimline/quantities';
import { type ReferenceTable, TABLE_COLUMNS, type TableColumn } from './reference-table.ts';
import { type UniformCurve, uniformCurve } from './uniform-curve.ts';
import { vapourCurves } from './vapour-curves.ts';

/** Curves over temperature in kelvin, SI; pressures, vapour density and viscosities as logarithms. */
export interface SaturationTables {
  readonly minimum_K: number;
  readonly maximum_K: number;
  readonly lnBubblePressure: UniformCurve;
  readonly lnDewPressure: UniformCurve;
  readonly liquidDensity: UniformCurve;
  readonly lnVapourDensity: UniformCurve;
  readonly latentHeat: UniformCurve;
  readonly liquidHeatCapacity: UniformCurve;
  readonly vapourHeatCapacity: UniformCurve;
  readonly vapourHeatCapacityRatio: UniformCurve;
  readonly vapourSpeedOfSound: UniformCurve;
  readonly secondVirial: UniformCurve;
  /** The dew curves packed for the density of superheated vapour; see `vapourCurves`. */
  readonly vapour: UniformCurve;
  /** Null where neither a reference correlation nor an estimate is held. */
  readonly lnLiquidViscosity: UniformCurve | null;
  readonly lnVapourViscosity: UniformCurve | null;
}

type Scale = (tabulated: number) => number;

/** Rows of comma-separated numbers; an empty cell is NaN. */
function parseRows(rows: string): readonly (readonly number[])[] {
  return rows
    .trim()
    .split('\n')
    .map((row) => row.split(',').map((cell) => (cell === '' ? NaN : Number(cell))));
}

function columnOf(rows: readonly (readonly number[])[], column: number, scale: Scale): Float64Array {
  return Float64Array.from(rows, (row) => scale(row[column] ?? NaN));
}

/** Whole or half degrees Celsius in kelvin, without the dust of binary fractions. */
function kelvinOf(celsius: number): number {
  return Math.round((celsius + KELVIN_AT_ZERO_CELSIUS) * 100) / 100;
}

const lnOf =
  (factor: number): Scale =>
  (value) =>
    Math.log(value * factor);
const KILO = 1000;
const MICRO = 1e-6;

function viscosityCurves(
  table: ReferenceTable,
  curve: (column: TableColumn, scale: Scale) => UniformCurve,
): Pick<SaturationTables, 'lnLiquidViscosity' | 'lnVapourViscosity'> {
  if (table.sources.viscosity !== null) {
    return {
      lnLiquidViscosity: curve('liquidViscosity_uPa_s', lnOf(MICRO)),
      lnVapourViscosity: curve('vapourViscosity_uPa_s', lnOf(MICRO)),
    };
  }
  const estimates = table.viscosityEstimates;
  if (estimates === null) return { lnLiquidViscosity: null, lnVapourViscosity: null };
  const first_K = kelvinOf(estimates.first_C);
  const [lnLiquidViscosity, lnVapourViscosity] = [0, 1].map((column) =>
    uniformCurve(first_K, estimates.step_K, columnOf(parseRows(estimates.rows), column, lnOf(MICRO))),
  );
  return { lnLiquidViscosity: lnLiquidViscosity ?? null, lnVapourViscosity: lnVapourViscosity ?? null };
}

/** Turns a tabulated refrigerant into curves; `every` 2 leaves out each second row, to measure the error. */
export function saturationTables(table: ReferenceTable, every = 1): SaturationTables {
  const rows = parseRows(table.rows).filter((_, index) => index % every === 0);
  const minimum_K = kelvinOf(table.first_C);
  const curve = (column: TableColumn, scale: Scale): UniformCurve =>
    uniformCurve(minimum_K, every, columnOf(rows, TABLE_COLUMNS.indexOf(column), scale));
  const timesKilo: Scale = (value) => value * KILO;
  const asIs: Scale = (value) => value;
  const dew = {
    lnDewPressure: curve('dewPressure_kPa', lnOf(KILO)),
    lnVapourDensity: curve('vapourDensity_kg_m3', lnOf(1)),
    vapourHeatCapacityRatio: curve('vapourHeatCapacityRatio', asIs),
    vapourSpeedOfSound: curve('vapourSpeedOfSound_m_s', asIs),
    secondVirial: curve('secondVirial_m3_kg', asIs),
  };
  const gasConstant_J_kgK = (MOLAR_GAS_CONSTANT_J_MOL_K * 1000) / table.molarMass_g_mol;
  return {
    ...dew,
    vapour: { ...dew.lnDewPressure, knots: vapourCurves(dew, gasConstant_J_kgK) },
    minimum_K,
    maximum_K: kelvinOf(table.first_C + (rows.length - 1) * every),
    lnBubblePressure: curve('bubblePressure_kPa', lnOf(KILO)),
    liquidDensity: curve('liquidDensity_kg_m3', asIs),
    latentHeat: curve('latentHeat_kJ_kg', timesKilo),
    liquidHeatCapacity: curve('liquidHeatCapacity_kJ_kgK', timesKilo),
    vapourHeatCapacity: curve('vapourHeatCapacity_kJ_kgK', timesKilo),
    ...viscosityCurves(table, curve),
  };
}
