import { frictionFactorColebrook } from './friction-factor.ts';
import { requirePositive, requireWithin } from '@brimline/quantities';

/**
 * Loss of a sudden step down, on the velocity in the small bore: K = 0.5 (1 - b^2), b = small/large.
 *
 * @param smallBore_m bore after the step [m]
 * @param largeBore_m bore before the step [m]
 * @returns loss coefficient on the small bore [-]
 * @throws OutOfDomainError unless 0 < small <= large
 * @validity turbulent flow
 * @source Crane TP-410, from memory; checked against a published worked value
 * @example contractionLoss(2, 3) // => 0.27777778
 */
export function contractionLoss(smallBore_m: number, largeBore_m: number): number {
  return 0.5 * (1 - boreRatio(smallBore_m, largeBore_m) ** 2);
}

/**
 * Loss of a sudden step up, on the velocity in the small bore: K = (1 - b^2)^2, b = small/large.
 *
 * @param smallBore_m bore before the step [m]
 * @param largeBore_m bore after the step [m]
 * @returns loss coefficient on the small bore [-]
 * @throws OutOfDomainError unless 0 < small <= large
 * @validity turbulent flow
 * @source Borda and Carnot; Crane TP-410, from memory; checked against a published worked value
 * @example enlargementLoss(0.5, 1) // => 0.5625
 */
export function enlargementLoss(smallBore_m: number, largeBore_m: number): number {
  return (1 - boreRatio(smallBore_m, largeBore_m) ** 2) ** 2;
}

function boreRatio(smallBore_m: number, largeBore_m: number): number {
  requirePositive('bore [m]', smallBore_m);
  requirePositive('bore [m]', largeBore_m);
  requireWithin('ratio of small to large bore', smallBore_m / largeBore_m, 0, 1);
  return smallBore_m / largeBore_m;
}

/**
 * Friction factor of full turbulence in clean steel pipe, the base of tabulated valve losses: the table of
 * Crane TP-410 as a fit, Colebrook's formula at Re = 7.5e6 D and e/D = 3.41268e-5 D^-1.0112, D in metres.
 *
 * @param bore_m pipe bore [m]
 * @returns friction factor of full turbulence [-]
 * @throws OutOfDomainError unless bore is from 5 mm to 1 m
 * @validity 5 mm to 1 m
 * @source fit of the table as the open-source library fluids (C. Bell) makes it, from memory; the table prints 0.027 for 1/2 in
 * @example turbulentFrictionFactor(0.0127) // => 0.0271
 */
export function turbulentFrictionFactor(bore_m: number): number {
  requireWithin('bore [m]', bore_m, 0.005, 1);
  return frictionFactorColebrook(7.5e6 * bore_m, 3.41268e-5 * bore_m ** -1.0112);
}

/**
 * Loss of a full-bore ball valve on its bore: K = 3 f_T.
 *
 * @param bore_m bore of valve and pipe [m]
 * @returns loss coefficient on the bore [-]
 * @throws OutOfDomainError unless bore is from 5 mm to 1 m
 * @validity fully open, turbulent
 * @source Crane TP-410, from memory
 * @example ballValveLoss(0.0127) // => 0.0814
 */
export function ballValveLoss(bore_m: number): number {
  return 3 * turbulentFrictionFactor(bore_m);
}

/**
 * Loss of a ball valve whose port is smaller than the pipe, with sudden steps, on the velocity in the pipe:
 *
 *   K = [ 3 f_T + 0.5 (1 - b^2) + (1 - b^2)^2 ] / b^4,  b = port/pipe
 *
 * @param portBore_m bore through the ball [m]
 * @param pipeBore_m bore of the pipe [m]
 * @returns loss coefficient on the pipe bore [-]
 * @throws OutOfDomainError unless 0 < port <= pipe, pipe from 5 mm to 1 m
 * @validity fully open, turbulent
 * @source Crane TP-410, from memory
 * @example reducedPortBallValveLoss(0.00889, 0.0127) // => 2.484
 */
export function reducedPortBallValveLoss(portBore_m: number, pipeBore_m: number): number {
  const ratio = boreRatio(portBore_m, pipeBore_m);
  const onPort =
    3 * turbulentFrictionFactor(pipeBore_m) +
    contractionLoss(portBore_m, pipeBore_m) +
    enlargementLoss(portBore_m, pipeBore_m);
  return onPort / ratio ** 4;
}

/**
 * Loss of a sharp orifice on the velocity in its own hole: K = 1/Cd^2.
 *
 * @param dischargeCoefficient share of the ideal flow that passes [-]
 * @returns loss coefficient on the hole [-]
 * @throws OutOfDomainError unless 0 < Cd <= 1
 * @validity hole much smaller than the pipe
 * @source Bernoulli; definition of the discharge coefficient
 * @example orificeLoss(0.62) // => 2.6015
 */
export function orificeLoss(dischargeCoefficient: number): number {
  requirePositive('discharge coefficient', dischargeCoefficient);
  requireWithin('discharge coefficient', dischargeCoefficient, 0, 1);
  return 1 / dischargeCoefficient ** 2;
}
