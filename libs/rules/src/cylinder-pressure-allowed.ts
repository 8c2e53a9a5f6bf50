import {
  KELVIN_AT_ZERO_CELSIUS,
  PASCALS_PER_PSI,
  requirePositive,
  STANDARD_ATMOSPHERE_PA,
} from '@brimline/quantities';
import { bubblePressure, type Refrigerant } from '@brimline/refrigerants';
import { CYLINDER_PRESSURES } from './data/cylinder-filling.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface CylinderPressure extends Cited {
  readonly allowed: boolean;
  readonly pressureAt131F_Pa_gauge: number;
  readonly minimumService_Pa_gauge: number;
}

/** A service pressure stamped in whole psi may come rounded. */
const ROUNDING_PA = 100;

/**
 * May a cylinder of this service pressure hold the refrigerant? Gauge pressure at 131 degF against 5/4 of the service
 * pressure; by the least marking that the table names for them.
 *
 * @param input refrigerant, service pressure stamped on the cylinder [Pa gauge]
 * @returns whether allowed, pressure at 131 degF and least service pressure [Pa gauge], citation
 * @throws OutOfDomainError unless the service pressure is above 0
 * @source 49 CFR 173.301a, 173.304a(a)(2) Table 1 and (c)
 */
export function cylinderPressureAllowed(input: {
  readonly refrigerant: Refrigerant;
  readonly servicePressure_Pa_gauge: number;
}): CylinderPressure {
  requirePositive('service pressure [Pa gauge]', input.servicePressure_Pa_gauge);
  const hot_K = CYLINDER_PRESSURES.temperature_C + KELVIN_AT_ZERO_CELSIUS;
  const pressureAt131F_Pa_gauge = bubblePressure(input.refrigerant, hot_K) - STANDARD_ATMOSPHERE_PA;
  const marking_psig = CYLINDER_PRESSURES.leastMarking_psig[input.refrigerant.name];
  const minimumService_Pa_gauge =
    marking_psig === undefined
      ? pressureAt131F_Pa_gauge / CYLINDER_PRESSURES.shareOfService
      : marking_psig * PASCALS_PER_PSI;
  return {
    allowed: input.servicePressure_Pa_gauge + ROUNDING_PA >= minimumService_Pa_gauge,
    pressureAt131F_Pa_gauge,
    minimumService_Pa_gauge,
    ...cited(CYLINDER_PRESSURES),
  };
}
