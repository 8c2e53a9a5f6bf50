import {
  CUBIC_METRES_PER_CUBIC_FOOT,
  CUBIC_METRES_PER_SECOND_PER_CFM,
  KILOGRAMS_PER_POUND,
  METRES_PER_FOOT,
  requireNotNegative,
  requirePositive,
} from '@brimline/quantities';
import { CONCENTRATION_LIMITS, MACHINERY_ROOM_VENTILATION } from './data/machinery-rooms.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface MachineryRoomVentilation extends Cited {
  readonly emergencyExhaust_m3_s: number;
  readonly naturalOpening_m2: number;
  /** The larger of the floor and the person rule; null when neither floor nor persons are given. */
  readonly normalExhaust_m3_s: number | null;
}

function normalExhaust(floor_m2: number | undefined, persons: number | undefined): number | null {
  if (floor_m2 === undefined && persons === undefined) return null;
  requireNotNegative('floor [m2]', floor_m2 ?? 0);
  requireNotNegative('persons', persons ?? 0);
  const rule = MACHINERY_ROOM_VENTILATION;
  const byFloor_cfm = ((floor_m2 ?? 0) / METRES_PER_FOOT ** 2) * rule.normal_cfm_ft2;
  const byPersons_cfm = (persons ?? 0) * rule.normal_cfm_person;
  return Math.max(byFloor_cfm, byPersons_cfm) * CUBIC_METRES_PER_SECOND_PER_CFM;
}

/**
 * Exhaust of a machinery room on alarm: cfm = 100 sqrt(G lb); free opening instead: ft2 = sqrt(G lb).
 *
 * @param input charge of the largest system [kg], floor [m2], persons [-]
 * @returns flows [m3/s] and opening [m2]
 * @throws OutOfDomainError unless the charge is above 0
 * @source International Mechanical Code 1105.6, after ASHRAE 15
 */
export function machineryRoomVentilation(input: {
  readonly charge_kg: number;
  readonly floor_m2?: number;
  readonly persons?: number;
}): MachineryRoomVentilation {
  requirePositive('charge of the largest system [kg]', input.charge_kg);
  const root_lb = Math.sqrt(input.charge_kg / KILOGRAMS_PER_POUND);
  const rule = MACHINERY_ROOM_VENTILATION;
  return {
    emergencyExhaust_m3_s: rule.emergency_cfm_per_root_lb * root_lb * CUBIC_METRES_PER_SECOND_PER_CFM,
    naturalOpening_m2: rule.naturalOpening_ft2_per_root_lb * root_lb * METRES_PER_FOOT ** 2,
    normalExhaust_m3_s: normalExhaust(input.floor_m2, input.persons),
    ...cited(rule),
  };
}

export interface RoomConcentration extends Cited {
  readonly concentration_kg_m3: number;
  /** Null where no limit is held for the refrigerant. */
  readonly limit_kg_m3: number | null;
  readonly isOver: boolean | null;
}

const KG_M3_PER_LB_1000FT3 = KILOGRAMS_PER_POUND / (1000 * CUBIC_METRES_PER_CUBIC_FOOT);

/**
 * Concentration if the whole charge came out, against the refrigerant concentration limit.
 *
 * @param input name of the refrigerant, charge [kg], free volume of the room [m3]
 * @returns concentration and limit [kg/m3], whether over
 * @throws OutOfDomainError unless charge and volume are above 0
 * @source International Mechanical Code Table 1103.1, after ASHRAE 34
 */
export function roomConcentration(input: {
  readonly refrigerantName: string;
  readonly charge_kg: number;
  readonly room_m3: number;
}): RoomConcentration {
  requirePositive('charge [kg]', input.charge_kg);
  requirePositive('volume of the room [m3]', input.room_m3);
  const concentration_kg_m3 = input.charge_kg / input.room_m3;
  const read = CONCENTRATION_LIMITS.limit_lb_1000ft3[input.refrigerantName];
  const recalled = CONCENTRATION_LIMITS.fromMemory_lb_1000ft3[input.refrigerantName];
  const limit = read ?? recalled;
  const limit_kg_m3 = limit === undefined ? null : limit * KG_M3_PER_LB_1000FT3;
  const note =
    limit === undefined ? ['No limit held.'] : read === undefined ? ['Limit from memory: confirm it.'] : [];
  return {
    concentration_kg_m3,
    limit_kg_m3,
    isOver: limit_kg_m3 === null ? null : concentration_kg_m3 > limit_kg_m3,
    ...cited(CONCENTRATION_LIMITS, ...note),
  };
}
