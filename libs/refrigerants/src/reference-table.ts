/** One refrigerant's reference data as tabulated: degrees Celsius, kilopascal, six significant digits. */
export interface ReferenceTable {
  readonly name: string;
  readonly kind: 'pure' | 'pseudo-pure blend' | 'mixture model';
  readonly composition: readonly Component[];
  readonly molarMass_g_mol: number;
  readonly criticalTemperature_C: number;
  readonly criticalPressure_kPa: number;
  readonly normalBubblePoint_C: number;
  readonly normalDewPoint_C: number;
  readonly glide_K: number;
  readonly safetyGroup: SafetyGroup;
  readonly odp: number;
  readonly gwp: GlobalWarmingPotential;
  readonly sources: DataSources;
  /** Temperature of the first row; a row a kelvin. */
  readonly first_C: number;
  /** Comma-separated rows in the order of TABLE_COLUMNS; an empty cell has no trustworthy value. */
  readonly rows: string;
  readonly viscosityEstimates: ViscosityEstimates | null;
}

/** A blend's part. */
export interface Component {
  readonly name: string;
  readonly massPercent: number;
}

/** ASHRAE 34 / ISO 817 letters and numbers. */
export type SafetyGroup = 'A1' | 'A2L' | 'A3' | 'B1';

/** 100-year potential by assessment report of the IPCC; null where no figure is held. */
export interface GlobalWarmingPotential {
  /** AR4 basis, as European and US rules use it; unsaturated fluids from Regulation (EU) 517/2014. */
  readonly ar4: number | null;
  readonly ar5: number | null;
  readonly ar6: number | null;
}

/** Where each kind of figure comes from. */
export interface DataSources {
  readonly equationOfState: string;
  readonly viscosity: string | null;
  readonly safetyGroup: string;
  readonly odp: string;
  readonly gwpAr4: string;
  readonly gwpAr5: string | null;
  readonly gwpAr6: string;
}

/** Rows of liquid and vapour viscosity in micropascal seconds, our own estimates for blends. */
export interface ViscosityEstimates {
  readonly first_C: number;
  readonly step_K: number;
  readonly rows: string;
}

/** Units as tabulated: kPa absolute, kg/m3, kJ/kg, kJ/(kg K), -, m/s, micropascal seconds, m3/kg. */
export const TABLE_COLUMNS = [
  'bubblePressure_kPa',
  'dewPressure_kPa',
  'liquidDensity_kg_m3',
  'vapourDensity_kg_m3',
  'latentHeat_kJ_kg',
  'liquidHeatCapacity_kJ_kgK',
  'vapourHeatCapacity_kJ_kgK',
  'vapourHeatCapacityRatio',
  'vapourSpeedOfSound_m_s',
  'liquidViscosity_uPa_s',
  'vapourViscosity_uPa_s',
  'secondVirial_m3_kg',
] as const;
export type TableColumn = (typeof TABLE_COLUMNS)[number];
