import { METRES_PER_INCH, OutOfDomainError, requireNotNegative, requirePositive } from '@brimline/quantities';
import { contractionLoss, enlargementLoss, orificeLoss } from './loss-coefficients.ts';

export type HosePart = 'hose' | 'end fitting' | 'valve passage' | 'valve core';

/** One stretch of a path: everything in it refers to the velocity in its own bore. */
export interface HosePiece {
  readonly bore_m: number;
  readonly length_m: number;
  readonly roughness_m: number;
  /** Sum of the losses that belong to this bore. */
  readonly lossCoefficient: number;
  readonly part?: HosePart;
}

/** A hose as measured: its own bore, and the smallest bores at its couplings and valves. */
export interface Hose {
  readonly bore_m: number;
  readonly length_m: number;
  readonly fittingBore_m: number;
  /** Smallest bore of the cylinder or service valve that the path passes. */
  readonly valveBore_m: number;
  readonly roughness_m: number;
}

/** Entry 0.5 and exit 1.0 (textbook, from memory), bends and tees 3.0 (assumed), two full-bore valves at 0.1. */
const HOSE_LOSS = 0.5 + 1.0 + 3.0 + 2 * 0.1;
const FITTING_LENGTH_M = 0.03;
const VALVE_LENGTH_M = 0.05;
/** Assumed, low confidence: 2 to 10. */
const VALVE_LOSS = 5;
/** Open area past a valve core and its depressor, and its discharge coefficient: assumed, low confidence, 3 to 8 mm2. */
export const VALVE_CORE_AREA_M2 = 5e-6;
export const VALVE_CORE_DISCHARGE_COEFFICIENT = 0.62;

/**
 * The pieces that liquid or vapour passes from vessel to vessel: hose with entry, exit, bends and its two valves;
 * a coupling at each end; one cylinder or service valve; and an orifice for each valve core left in.
 *
 * @param hose measured bores, length, wall roughness [m]
 * @param options.coresLeftIn valve cores or depressors in the path [-]
 * @returns pieces in series [m]
 * @throws OutOfDomainError unless bores and length are above 0, couplings and valves no wider than the hose, cores a whole number
 * @validity smooth lined hose; corrugated metal hose needs its roughness raised until f is two to four times as large
 * @source losses of steps: Crane TP-410, from memory; the rest assumed, low confidence
 * @example hosePath({ bore_m: 0.0095, length_m: 3, fittingBore_m: 0.0075, valveBore_m: 0.007, roughness_m: 1e-5 }, { coresLeftIn: 0 }).length // => 4
 */
export function hosePath(
  hose: Hose,
  { coresLeftIn }: { readonly coresLeftIn: number },
): readonly HosePiece[] {
  requireHose(hose);
  if (!Number.isInteger(coresLeftIn) || coresLeftIn < 0) {
    throw new OutOfDomainError('valve cores left in', coresLeftIn, 'a whole number, 0 or more');
  }
  const { bore_m, length_m, fittingBore_m, valveBore_m, roughness_m } = hose;
  const fitting: HosePiece = {
    bore_m: fittingBore_m,
    length_m: FITTING_LENGTH_M,
    roughness_m,
    lossCoefficient: contractionLoss(fittingBore_m, bore_m) + enlargementLoss(fittingBore_m, bore_m),
    part: 'end fitting',
  };
  return [
    { bore_m, length_m, roughness_m, lossCoefficient: HOSE_LOSS, part: 'hose' },
    fitting,
    fitting,
    {
      bore_m: valveBore_m,
      length_m: VALVE_LENGTH_M,
      roughness_m,
      lossCoefficient: VALVE_LOSS,
      part: 'valve passage',
    },
    ...Array.from({ length: coresLeftIn }, () => valveCore()),
  ];
}

/** A valve core left in, as an orifice of its open area. */
export function valveCore(): HosePiece {
  return {
    bore_m: Math.sqrt((4 / Math.PI) * VALVE_CORE_AREA_M2),
    length_m: 0,
    roughness_m: 0,
    lossCoefficient: orificeLoss(VALVE_CORE_DISCHARGE_COEFFICIENT),
    part: 'valve core',
  };
}

function requireHose({ bore_m, length_m, fittingBore_m, valveBore_m, roughness_m }: Hose): void {
  requirePositive('hose length [m]', length_m);
  requireNotNegative('wall roughness [m]', roughness_m);
  requirePositive('hose bore [m]', bore_m);
  for (const [what, inner_m] of [
    ['coupling bore [m]', fittingBore_m],
    ['valve bore [m]', valveBore_m],
  ] as const) {
    requirePositive(what, inner_m);
    if (inner_m > bore_m) throw new OutOfDomainError(what, inner_m, `up to the hose bore, ${bore_m} m`);
  }
}

/**
 * A hose of which only bore and length were measured: couplings and valve in the usual proportion.
 * Ratios 0.8 and 0.74: assumed, low confidence.
 */
export function hoseOfBore(bore_m: number, length_m: number): Hose {
  return { bore_m, length_m, fittingBore_m: 0.8 * bore_m, valveBore_m: 0.74 * bore_m, roughness_m: 1e-5 };
}

/** @throws OutOfDomainError unless every piece has a bore, no negative length, roughness or loss, and some resistance */
export function requirePath(path: readonly HosePiece[]): void {
  let resistance = 0;
  for (const { bore_m, length_m, roughness_m, lossCoefficient } of path) {
    requirePositive('bore_m of a piece [m]', bore_m);
    requireNotNegative('length_m of a piece [m]', length_m);
    requireNotNegative('roughness_m of a piece [m]', roughness_m);
    requireNotNegative('lossCoefficient of a piece', lossCoefficient);
    resistance += length_m + lossCoefficient;
  }
  if (resistance === 0) {
    throw new OutOfDomainError('path', path.length, 'at least one piece with a length or a loss');
  }
}

/** The bore in words, to the nearest sixteenth of an inch, e.g. "3/8 in bore hose". */
export function nameOfPiece(piece: HosePiece): string {
  switch (piece.part) {
    case 'valve core':
      return 'the valve core left in';
    case 'end fitting':
      return `the hose's ${inches(piece.bore_m)} in end fittings`;
    case 'valve passage':
      return `the ${inches(piece.bore_m)} in valve passage`;
    default:
      return `the ${inches(piece.bore_m)} in bore hose`;
  }
}

function inches(bore_m: number): string {
  const sixteenths = Math.max(1, Math.round((bore_m / METRES_PER_INCH) * 16));
  const whole = Math.floor(sixteenths / 16);
  let [over, under] = [sixteenths % 16, 16];
  while (over > 0 && over % 2 === 0) [over, under] = [over / 2, under / 2];
  if (over === 0) return String(whole);
  return whole === 0 ? `${over}/${under}` : `${whole} ${over}/${under}`;
}
