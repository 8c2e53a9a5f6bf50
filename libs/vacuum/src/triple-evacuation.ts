import { OutOfDomainError, type Result, refusal, requireNotNegative, success } from '@brimline/quantities';
import { dilutionAfterPulls, type Evacuation, evacuation, type EvacuationInput } from './evacuation.ts';
import { GASES, massOfThroughput } from './gases.ts';
import { nitrogenDensity } from './nitrogen-density.ts';
import type { VacuumProblem } from './vacuum-floor.ts';
import { waterPressure } from './water.ts';

export interface TripleEvacuationInput extends Omit<EvacuationInput, 'to_Pa'> {
  /** Where each pull ends, in order; usually three. */
  readonly pulls_Pa: readonly number[];
  /** Pressure of the dry nitrogen that breaks the vacuum between pulls. */
  readonly break_Pa: number;
  /** Rest under nitrogen at each break, filling included. */
  readonly soak_s: number;
}

export interface TripleEvacuation {
  readonly time_s: number;
  readonly pulls: readonly Evacuation[];
  /** Share of the first gas left at the end. */
  readonly residualFraction: number;
  readonly nitrogen_kg: number;
  /** Most water that the nitrogen of all breaks could carry off, saturated at room temperature. */
  readonly carriedWater_kg: number;
}

/**
 * Evacuation in several pulls with the vacuum broken by dry nitrogen between them. All water is dried in the first
 * pull; what the breaks carry off is given beside it and is small: 17 g in a cubic metre at 20 degC. What breaks are
 * good for is to bring heat to the water.
 *
 *   t = sum of pulls + (n - 1) soak;  residual = product of P_i/P_before
 *
 * @param input as for `evacuation`, with the pulls [Pa abs], the break [Pa abs] and the soak [s]
 * @returns time [s], the pulls, the residual fraction [-], nitrogen [kg] and the water that it may carry [kg]
 * @throws OutOfDomainError as `evacuation`, or when there is no pull
 * @validity as `evacuation`
 * @source mass balance; dilution of an ideal gas
 */
export function tripleEvacuation(input: TripleEvacuationInput): Result<TripleEvacuation, VacuumProblem> {
  const { pulls_Pa, break_Pa, soak_s, volume_m3, temperature_K } = input;
  if (pulls_Pa.length === 0) throw new OutOfDomainError('pulls', 0, 'one or more');
  requireNotNegative('soak [s]', soak_s);
  const pulls: Evacuation[] = [];
  let nitrogen_kg = 0;
  for (const [index, to_Pa] of pulls_Pa.entries()) {
    const from_Pa = index === 0 ? input.from_Pa : break_Pa;
    const pull = evacuation({ ...input, from_Pa, to_Pa, water_kg: index === 0 ? (input.water_kg ?? 0) : 0 });
    if (!pull.ok) return refusal(...pull.problems.map((one) => ({ ...one, path: `pulls_Pa.${index}` })));
    pulls.push(pull.value);
    if (index < pulls_Pa.length - 1) {
      nitrogen_kg +=
        volume_m3 * (nitrogenDensity(break_Pa, temperature_K) - nitrogenDensity(to_Pa, temperature_K));
    }
  }
  const breaks = pulls_Pa.length - 1;
  const vapour_kg_m3 = massOfThroughput(waterPressure(temperature_K), GASES['water vapour'], temperature_K);
  return success({
    time_s: pulls.reduce((sum, { time_s }) => sum + time_s, breaks * soak_s),
    pulls,
    residualFraction: dilutionAfterPulls(
      pulls_Pa.map((pull_Pa, index) => ({ pull_Pa, break_Pa: index === 0 ? input.from_Pa : break_Pa })),
    ),
    nitrogen_kg,
    carriedWater_kg: Math.min(input.water_kg ?? 0, breaks * volume_m3 * vapour_kg_m3),
  });
}
