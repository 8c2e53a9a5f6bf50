import { OutOfDomainError, requirePositive } from '@brimline/quantities';

export interface EarnedValueInput {
  /** Planned value of the work due by now. */
  readonly planned: number;
  /** Planned value of the work done by now: recovery and charging by weighed mass, evacuation by passed tests. */
  readonly earned: number;
  readonly actual: number;
  /** Planned cost of the whole. */
  readonly budget: number;
}

export interface EarnedValue {
  readonly costVariance: number;
  readonly scheduleVariance: number;
  readonly costIndex: number;
  readonly scheduleIndex: number;
  /** Cost of the whole if it goes on as it went so far. */
  readonly forecastAtTrend: number;
  /** Cost of the whole if the difference so far comes once. */
  readonly forecastOneOff: number;
  /** Cost index that the rest needs to end on budget; null when the budget is spent. */
  readonly indexToBudget: number | null;
}

/**
 * Where a job stands against its plan:
 *
 *   CV = EV - AC;  SV = EV - PV;  CPI = EV/AC;  SPI = EV/PV;  EAC = BAC/CPI or AC + BAC - EV;  TCPI = (BAC - EV)/(BAC - AC)
 *
 * @throws OutOfDomainError unless planned, earned and actual are above 0
 * @source earned value management; formulas as in public worked examples
 */
export function earnedValue({ planned, earned, actual, budget }: EarnedValueInput): EarnedValue {
  requirePositive('planned value', planned);
  requirePositive('earned value', earned);
  requirePositive('actual cost', actual);
  if (!(budget >= earned))
    throw new OutOfDomainError('budget', budget, 'a number not below the earned value');
  return {
    costVariance: earned - actual,
    scheduleVariance: earned - planned,
    costIndex: earned / actual,
    scheduleIndex: earned / planned,
    forecastAtTrend: (budget * actual) / earned,
    forecastOneOff: actual + budget - earned,
    indexToBudget: budget > actual ? (budget - earned) / (budget - actual) : null,
  };
}
