import {
  OutOfDomainError,
  PASCALS_PER_INCH_OF_MERCURY,
  PASCALS_PER_MICRON,
  requireNotNegative,
  requirePositive,
  SECONDS_PER_HOUR,
} from '@brimline/quantities';
import { STANDING_VACUUM, type StandingVacuumCriterion } from './data/pressure-and-vacuum-tests.ts';
import { type Cited, cited } from './rule-facts.ts';

export interface StandingVacuum extends Cited {
  readonly verdict: 'pass' | 'fail' | 'too short';
  /** Highest pressure at which it passes, absolute. */
  readonly limit_Pa: number;
}

/** Gauges read whole microns: a limit met to a hundredth of one is met. */
const READING_PA = PASCALS_PER_MICRON / 100;

/**
 * Does a closed-off vacuum hold? Over its limit it fails at any time; within it, it passes once the span is over.
 *
 * @param input criterion, pressure at closing and now [Pa abs], time since closing [s]
 * @returns verdict and limit [Pa abs], with citation
 * @throws OutOfDomainError unless pressures are above 0, or when the start is higher than the criterion's
 * @source UFGS refrigerant piping section; operation manual of a centrifugal chiller
 */
export function standingVacuum(input: {
  readonly criterion: StandingVacuumCriterion;
  readonly start_Pa: number;
  readonly end_Pa: number;
  readonly elapsed_s: number;
}): StandingVacuum {
  requirePositive('pressure at closing [Pa abs]', input.start_Pa);
  requirePositive('pressure now [Pa abs]', input.end_Pa);
  requireNotNegative('time since closing [s]', input.elapsed_s);
  const rule = STANDING_VACUUM[input.criterion];
  const highestStart_Pa = (rule.start_micron ?? Number.POSITIVE_INFINITY) * PASCALS_PER_MICRON;
  if (input.start_Pa > highestStart_Pa + READING_PA) {
    throw new OutOfDomainError(
      'pressure at closing [Pa abs]',
      input.start_Pa,
      `up to ${highestStart_Pa.toFixed(2)}`,
    );
  }
  const limit_Pa =
    rule.end_micron === null
      ? input.start_Pa + (rule.rise_inHg ?? 0) * PASCALS_PER_INCH_OF_MERCURY
      : rule.end_micron * PASCALS_PER_MICRON;
  const isOver = input.end_Pa > limit_Pa + READING_PA;
  const isLong = input.elapsed_s >= rule.span_h * SECONDS_PER_HOUR - 1e-6;
  return { verdict: isOver ? 'fail' : isLong ? 'pass' : 'too short', limit_Pa, ...cited(rule) };
}
