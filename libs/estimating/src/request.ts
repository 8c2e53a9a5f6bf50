import type { Chiller, Cylinder, GearUnit, Job, Site } from '@brimline/firm';
import type { Norms } from './norms.ts';
import type { Worth } from './worth.ts';

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
  /** What hours and pounds are worth; absent: ways are ranked by person-time and no cost is given. */
  readonly worth?: Worth;
  /** Certainty at which ways are ranked, above 0 and below 1; 0.8 unless given. */
  readonly certainty?: number;
  /** False: only the way that the job asks for, without alternatives. */
  readonly comparesWays?: boolean;
}
