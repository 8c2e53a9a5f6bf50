import type { Refrigerant } from './refrigerant.ts';
import { refrigerant } from './refrigerant.ts';
import { requireTabulated } from './saturation.ts';
import { curveEnd, curveValue, type UniformCurve } from './uniform-curve.ts';

/**
 * A viscosity that is always there, with what it is worth:
 * reference: a published correlation; 2 to 5 % for liquids at 0 to 60 degC, up to 15 % when cold (own judgement);
 * estimate: our own mixing rule over the parts, within about 15 %;
 * assumed: a stand-in where nothing better is held, within about 30 % (own judgement, low confidence).
 */
export interface ViscosityEstimate {
  readonly value_Pa_s: number;
  readonly quality: 'reference' | 'estimate' | 'assumed';
  readonly source: string;
}

/** Value of a curve that may not reach the temperature; null off its ends and in blanks. */
function heldValue(curve: UniformCurve | null, temperature_K: number): number | null {
  if (curve === null || temperature_K < curve.first - 1e-9 || temperature_K > curveEnd(curve) + 1e-9)
    return null;
  const ln = curveValue(curve, temperature_K);
  return Number.isNaN(ln) ? null : Math.exp(ln);
}

/**
 * Dynamic viscosity of the liquid at the bubble point. `viscosityQuality` of the refrigerant says whether this is a
 * reference correlation or an estimate (within about 15 %).
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns viscosity, null where none is held [Pa s]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K; estimates of blends from 233.15 to 333.15 K, null elsewhere
 * @source the refrigerant's `sources.viscosity`; estimates: data/README.md
 */
export function liquidViscosity(r: Refrigerant, temperature_K: number): number | null {
  requireTabulated(r, temperature_K);
  return heldValue(r.tables.lnLiquidViscosity, temperature_K);
}

/**
 * Dynamic viscosity of the vapour at the dew point; see `liquidViscosity`.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns viscosity, null where none is held [Pa s]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K; estimates of blends from 233.15 to 333.15 K, null elsewhere
 * @source the refrigerant's `sources.viscosity`; estimates: data/README.md
 */
export function vapourViscosity(r: Refrigerant, temperature_K: number): number | null {
  requireTabulated(r, temperature_K);
  return heldValue(r.tables.lnVapourViscosity, temperature_K);
}

/** What stands in for a missing viscosity: another fluid's curve times a factor. */
interface StandIn {
  readonly likeName: string;
  readonly liquidFactor: number;
  readonly vapourFactor: number;
  readonly source: string;
}

const STAND_INS: Readonly<Record<string, StandIn>> = {
  'R-1233zd(E)': {
    likeName: 'R-123',
    liquidFactor: 0.71,
    vapourFactor: 1,
    source:
      'liquid at 24 degC 300 micropascal seconds, from memory; course over temperature as R-123; assumed',
  },
  'R-514A': {
    likeName: 'R-123',
    liquidFactor: 1,
    vapourFactor: 1,
    source: 'taken as R-123, whose boiling point and density are near; assumed, low confidence',
  },
};

/** Carries ln viscosity past an estimate's end along the straight line in 1/T through its last two points. */
function beyondEstimate(curve: UniformCurve, temperature_K: number): number {
  const cold = temperature_K < curve.first;
  const near = cold ? curve.first : curveEnd(curve);
  const next = cold ? near + curve.step : near - curve.step;
  const lnNear = curveValue(curve, near);
  const slope = (lnNear - curveValue(curve, next)) / (1 / near - 1 / next);
  return Math.exp(lnNear + slope * (1 / temperature_K - 1 / near));
}

function estimateOf(
  r: Refrigerant,
  curve: UniformCurve | null,
  temperature_K: number,
  standIn: (like: StandIn) => number,
): ViscosityEstimate {
  requireTabulated(r, temperature_K);
  const held = heldValue(curve, temperature_K);
  if (held !== null) {
    return r.viscosityQuality === 'estimate'
      ? { value_Pa_s: held, quality: 'estimate', source: 'own mixing rule over the parts, within about 15 %' }
      : { value_Pa_s: held, quality: 'reference', source: r.sources.viscosity ?? '' };
  }
  const like = STAND_INS[r.name];
  if (like) return { value_Pa_s: standIn(like), quality: 'assumed', source: like.source };
  if (curve === null) throw new Error(`${r.name} has neither a viscosity nor a stand-in for it`);
  const value_Pa_s = beyondEstimate(nearestHeld(curve), temperature_K);
  return {
    value_Pa_s,
    quality: 'assumed',
    source: 'ln viscosity carried on straight in 1/T past the last value held',
  };
}

/** The curve without the blanks at its cold end. */
function nearestHeld(curve: UniformCurve): UniformCurve {
  const points = curve.lastInterval + 2;
  let blanks = 0;
  while (blanks < points && Number.isNaN(curve.knots[2 * blanks])) blanks += 1;
  return {
    first: curve.first + blanks * curve.step,
    step: curve.step,
    lastInterval: curve.lastInterval - blanks,
    knots: curve.knots.subarray(2 * blanks),
  };
}

/**
 * Liquid viscosity that hydraulics can always use: the held value, else a stand-in that says so.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns viscosity with its quality and source [Pa s]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source see the result's `source`
 */
export function liquidViscosityEstimate(r: Refrigerant, temperature_K: number): ViscosityEstimate {
  return estimateOf(r, r.tables.lnLiquidViscosity, temperature_K, (like) => {
    const other = liquidViscosityEstimate(refrigerant(like.likeName), temperature_K);
    return other.value_Pa_s * like.liquidFactor;
  });
}

/**
 * Vapour viscosity that hydraulics can always use: the held value, else a stand-in that says so.
 *
 * @param r refrigerant [-]
 * @param temperature_K temperature [K]
 * @returns viscosity with its quality and source [Pa s]
 * @throws OutOfDomainError outside the table
 * @validity tableMinimum_K to tableMaximum_K
 * @source see the result's `source`
 */
export function vapourViscosityEstimate(r: Refrigerant, temperature_K: number): ViscosityEstimate {
  return estimateOf(r, r.tables.lnVapourViscosity, temperature_K, (like) => {
    const other = vapourViscosityEstimate(refrigerant(like.likeName), temperature_K);
    return other.value_Pa_s * like.vapourFactor;
  });
}
