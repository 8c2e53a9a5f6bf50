import type { Chiller, Cylinder, GearUnit, Job, Site } from '@brimline/firm';
import type { Norms } from './norms.ts';

/** What an estimate is made from. The same request and seed give the same estimate, byte for byte. */
export interface EstimateRequest {
  readonly job: Job;
  readonly chiller: Chiller;
  readonly site: Site;
  /** Gear that may be used; units whose calibration lapses are already left out. */
  readonly gear: readonly GearUnit[];
  /** Every cylinder of the firm; which may serve is decided here. */
  readonly cylinders: readonly Cylinder[];
  readonly norms: Norms;
  /** Cylinders taken along beyond the number that the charge needs. */
  readonly spareCylinders: number;
  readonly seed: number;
  /** Draws for the percentiles, 200 or more. */
  readonly samples: number;
}
