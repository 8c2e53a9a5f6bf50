import {
  KILOGRAMS_PER_POUND,
  PASCALS_PER_INCH_OF_MERCURY,
  PASCALS_PER_PSI,
  PASCALS_PER_TORR,
  requirePositive,
  STANDARD_ATMOSPHERE_PA,
} from '@brimline/quantities';
import { type PressureClass, pressureClassFinding, type Refrigerant } from '@brimline/refrigerants';
import { requireDay } from './calendar-day.ts';
import { RECOVERY_EXCEPTIONS, RECOVERY_LEVELS, type WrittenLevel } from './data/recovery-levels.ts';
import { type Cited, cited, type RuleFacts } from './rule-facts.ts';

export const LEAKING_CHOICES = ['no', 'leaking part', 'sound part'] as const;

export interface RecoveryOccasion {
  /** Full charge of the appliance, or of the part isolated. */
  readonly charge_kg: number;
  /** Day the recovery machine was made or imported, "yyyy-MM-dd". */
  readonly recoveryMachineMade: string;
  /** An oil change alone asks for less. */
  readonly job?: 'opening' | 'oil change';
  /** Major: takes out compressor, condenser, evaporator or auxiliary coil. Taken as major when absent. */
  readonly repair?: 'major' | 'non-major';
  /** Does a vacuum pump discharge to the air afterwards, as any dehydration does? Taken as yes when absent. */
  readonly evacuatedAfter?: boolean;
  /** Where a leak makes the level unattainable: which part is meant. */
  readonly leaking?: (typeof LEAKING_CHOICES)[number];
  /** Barometric pressure on site, for limits given as gauge pressure. */
  readonly atmosphere_Pa?: number;
}

export interface RecoveryLevel extends Cited {
  /** Absolute. */
  readonly pressure_Pa: number;
  /** As the rule writes it, e.g. "15 in Hg vacuum". */
  readonly text: string;
}

const SLACK = 1e-9;

/** Inches of mercury below the rule's atmosphere of 29.9 inHg, as an absolute pressure. */
export function pressureOfVacuum(vacuum_inHg: number): number {
  return (RECOVERY_LEVELS.referenceAtmosphere_inHg - vacuum_inHg) * PASCALS_PER_INCH_OF_MERCURY;
}

function fromWritten(level: WrittenLevel): { pressure_Pa: number; text: string } {
  if ('absolute_mmHg' in level) {
    const text = `${level.absolute_mmHg} mm Hg absolute`;
    return { pressure_Pa: level.absolute_mmHg * PASCALS_PER_TORR, text };
  }
  const text = level.vacuum_inHg === 0 ? '0 in Hg vacuum (0 psig)' : `${level.vacuum_inHg} in Hg vacuum`;
  return { pressure_Pa: pressureOfVacuum(level.vacuum_inHg), text };
}

function tableLevel(pressureClass: PressureClass, occasion: RecoveryOccasion): RecoveryLevel {
  const charge_lb = (occasion.charge_kg / KILOGRAMS_PER_POUND) * (1 + SLACK);
  const row = RECOVERY_LEVELS.rows.findLast(
    (candidate) => candidate.pressureClass === pressureClass && candidate.fromCharge_lb <= charge_lb,
  );
  if (!row) throw new Error(`the table of recovery levels lacks the class ${pressureClass}`);
  const isOld =
    requireDay('day the recovery machine was made', occasion.recoveryMachineMade) <
    requireDay('day in the table', RECOVERY_LEVELS.machineDate);
  return { ...fromWritten(isOld ? row.madeBefore : row.madeOnOrAfter), ...cited(RECOVERY_LEVELS) };
}

function gaugeLevel(rule: RuleFacts & { limit_psig: number }, atmosphere_Pa: number): RecoveryLevel {
  return {
    pressure_Pa: atmosphere_Pa + rule.limit_psig * PASCALS_PER_PSI,
    text: `no more than ${rule.limit_psig} psig`,
    ...cited(rule),
  };
}

/** The exception that applies, in the rule's order; null where the table holds. */
function exceptionFor(
  pressureClass: PressureClass,
  occasion: RecoveryOccasion,
): (RuleFacts & { limit_psig: number }) | null {
  if (occasion.job === 'oil change') return RECOVERY_EXCEPTIONS.oilChange;
  if (occasion.leaking === 'leaking part') return RECOVERY_EXCEPTIONS.leakingPart;
  if (occasion.repair !== 'non-major' || occasion.evacuatedAfter !== false) return null;
  return pressureClass === 'low'
    ? RECOVERY_EXCEPTIONS.nonMajorRepairLowPressure
    : RECOVERY_EXCEPTIONS.nonMajorRepair;
}

/**
 * Recovery level of a pressure class, for refrigerants whose properties are not held.
 *
 * Order: oil change; leaking part; non-major repair without evacuation afterwards; else the table.
 *
 * @param pressureClass class of the appliance [-]
 * @param occasion charge [kg], day the machine was made, kind of work [-]
 * @returns absolute pressure [Pa abs] with the rule's own words and citation
 * @throws OutOfDomainError unless the charge is above 0 and the day is a day
 * @source 40 CFR 82.156(a)
 */
export function recoveryLevelOfClass(
  pressureClass: PressureClass,
  occasion: RecoveryOccasion,
): RecoveryLevel {
  requirePositive('full charge [kg]', occasion.charge_kg);
  requireDay('day the recovery machine was made', occasion.recoveryMachineMade);
  const exception = exceptionFor(pressureClass, occasion);
  if (exception === null) return tableLevel(pressureClass, occasion);
  return gaugeLevel(exception, occasion.atmosphere_Pa ?? STANDARD_ATMOSPHERE_PA);
}

/**
 * Pressure down to which refrigerant must be recovered before the appliance is opened.
 *
 * @param input refrigerant, full charge [kg], day the recovery machine was made, kind of work [-]
 * @returns absolute pressure [Pa abs] with the rule's own words and citation
 * @throws OutOfDomainError unless the charge is above 0 and the day is a day
 * @source 40 CFR 82.156(a); pressure class: 82.152
 * @example requiredRecoveryLevel({ refrigerant: refrigerant('R-134a'), charge_kg: 400,
 *   recoveryMachineMade: '2015-01-01' }).text // => "15 in Hg vacuum"
 */
export function requiredRecoveryLevel(
  input: RecoveryOccasion & { readonly refrigerant: Refrigerant },
): RecoveryLevel {
  const { planAs, note } = pressureClassFinding(input.refrigerant);
  const level = recoveryLevelOfClass(planAs, input);
  return note === null ? level : { ...level, notes: [...level.notes, note] };
}
