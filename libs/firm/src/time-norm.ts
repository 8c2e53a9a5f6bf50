/** Names of the spans that people need; what each stands for, and its standard value, the estimating lib says. */
export const NORM_IDS = [
  'inductionOrdinary',
  'inductionStrict',
  'sameVisit',
  'roomCheck',
  'carryInGround',
  'carryInHard',
  'largeUnit',
  'connectCircuit',
  'coreRemoval',
  'purgeHoses',
  'scaleSetUp',
  'changeSmall',
  'changeLarge',
  'changeManifold',
  'warmWater',
  'recoveryHold',
  'nitrogenBreak',
  'raiseNitrogen',
  'leakSearch',
  'repairLeak',
  'releaseNitrogen',
  'pumpSetUp',
  'nitrogenSweep',
  'evacuationSoak',
  'proveWater',
  'preChargeSetUp',
  'startUp',
  'rigDown',
  'paperwork',
  'survey',
  'cylinderReturn',
] as const;
export type NormId = (typeof NORM_IDS)[number];

/** A firm's own figure in place of a standard one: about P5, mode and P95 of one occurrence. */
export interface OwnNorm {
  readonly id: NormId;
  readonly low_s: number;
  readonly likely_s: number;
  readonly high_s: number;
  /** Where the figure comes from, such as "own logs, 14 jobs". */
  readonly source: string;
  /** Local day on which it was set. */
  readonly dated: string;
}
