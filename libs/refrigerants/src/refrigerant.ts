import {
  CalculationInputError,
  KELVIN_AT_ZERO_CELSIUS,
  MOLAR_GAS_CONSTANT_J_MOL_K,
  textField,
} from '@brimline/quantities';
import { REFERENCE_TABLES } from './data/reference-tables.ts';
import type {
  Component,
  DataSources,
  GlobalWarmingPotential,
  ReferenceTable,
  SafetyGroup,
} from './reference-table.ts';
import { type SaturationTables, saturationTables } from './saturation-tables.ts';

/** A refrigerant with its constants. Get it from `refrigerant(name)`; it can't be copied by spreading. */
export interface Refrigerant {
  readonly name: string;
  readonly kind: ReferenceTable['kind'];
  /** Empty for a pure fluid. */
  readonly composition: readonly Component[];
  readonly isBlend: boolean;
  readonly molarMass_kg_mol: number;
  /** R / M. */
  readonly gasConstant_J_kgK: number;
  readonly criticalTemperature_K: number;
  readonly criticalPressure_Pa: number;
  /** At 101.325 kPa. */
  readonly normalBubblePoint_K: number;
  readonly normalDewPoint_K: number;
  readonly glide_K: number;
  readonly safetyGroup: SafetyGroup;
  readonly odp: number;
  readonly gwp: GlobalWarmingPotential;
  /** What the viscosity is worth; null where none is held. */
  readonly viscosityQuality: 'reference' | 'estimate' | null;
  readonly sources: DataSources;
  /** The properties hold from here ... */
  readonly tableMinimum_K: number;
  /** ... to here, both included. */
  readonly tableMaximum_K: number;
  /** Curves behind the property functions; hidden from JSON and from loops over the fields. */
  readonly tables: SaturationTables;
}

export class UnknownRefrigerantError extends Error {
  constructor(
    readonly asked: string,
    readonly allowed: readonly string[],
  ) {
    super(`no properties are held for refrigerant "${asked}"; allowed: ${allowed.join(', ')}`);
    this.name = 'UnknownRefrigerantError';
  }
}

function viscosityQuality(table: ReferenceTable): Refrigerant['viscosityQuality'] {
  if (table.sources.viscosity !== null) return 'reference';
  return table.viscosityEstimates === null ? null : 'estimate';
}

function refrigerantFrom(table: ReferenceTable): Refrigerant {
  const molarMass_kg_mol = table.molarMass_g_mol / 1000;
  const tables = saturationTables(table);
  const constants: Omit<Refrigerant, 'tables'> = {
    name: table.name,
    kind: table.kind,
    composition: table.composition,
    isBlend: table.composition.length > 1,
    molarMass_kg_mol,
    gasConstant_J_kgK: MOLAR_GAS_CONSTANT_J_MOL_K / molarMass_kg_mol,
    criticalTemperature_K: table.criticalTemperature_C + KELVIN_AT_ZERO_CELSIUS,
    criticalPressure_Pa: table.criticalPressure_kPa * 1000,
    normalBubblePoint_K: table.normalBubblePoint_C + KELVIN_AT_ZERO_CELSIUS,
    normalDewPoint_K: table.normalDewPoint_C + KELVIN_AT_ZERO_CELSIUS,
    glide_K: table.glide_K,
    safetyGroup: table.safetyGroup,
    odp: table.odp,
    gwp: table.gwp,
    viscosityQuality: viscosityQuality(table),
    sources: table.sources,
    tableMinimum_K: tables.minimum_K,
    tableMaximum_K: tables.maximum_K,
  };
  return Object.freeze(Object.defineProperty(constants, 'tables', { value: tables })) as Refrigerant;
}

const NAMES: readonly string[] = REFERENCE_TABLES.map((table) => table.name);

/** Letters and digits only, so that "R134a", "r-134a" and "R 134a" are one. */
function spelling(name: string): string {
  return name.toUpperCase().replaceAll(/[^A-Z0-9]/gu, '');
}

const BY_SPELLING = new Map(REFERENCE_TABLES.map((table) => [spelling(table.name), table]));
const ready = new Map<string, Refrigerant>();

/** Names of the refrigerants whose properties are held, as they are written everywhere else. */
export function refrigerantNames(): readonly string[] {
  return NAMES;
}

/**
 * The refrigerant of that name; its tables are unpacked at the first call and kept.
 *
 * @param name e.g. "R-134a"; case, spaces, hyphens and brackets don't matter [-]
 * @returns constants, and the handle that the property functions take [-]
 * @throws UnknownRefrigerantError naming the ones that are held
 * @source this library's data/README.md
 * @example refrigerant('r134a').name // => "R-134a"
 */
export function refrigerant(name: string): Refrigerant {
  const key = spelling(name);
  const found = ready.get(key);
  if (found) return found;
  const table = BY_SPELLING.get(key);
  if (!table) throw new UnknownRefrigerantError(name, NAMES);
  const made = refrigerantFrom(table);
  ready.set(key, made);
  return made;
}

/** @throws CalculationInputError unless the field names a refrigerant that is held */
export function refrigerantField(
  input: Readonly<Record<string, unknown>>,
  field = 'refrigerant',
): Refrigerant {
  const name = textField(input, field);
  if (!BY_SPELLING.has(spelling(name))) {
    throw new CalculationInputError(field, name, `one of: ${NAMES.join(', ')}`);
  }
  return refrigerant(name);
}
