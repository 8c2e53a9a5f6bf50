import type { Base, Person } from './crew.ts';
import type { Cylinder, GearUnit } from './gear.ts';
import type { Job } from './job.ts';
import type { RateCard } from './rate-card.ts';
import type { Chiller, Site } from './site.ts';

/** Everything that a plan is made from: the firm's registers and the jobs at hand. */
export interface Firm {
  readonly name: string;
  /** Said wherever the firm's name is shown, when the data are invented. */
  readonly notice: string;
  /** First local day of the planning week, in the zone of the first base. */
  readonly planFrom: string;
  readonly planDays: number;
  readonly bases: readonly Base[];
  readonly sites: readonly Site[];
  readonly chillers: readonly Chiller[];
  readonly gear: readonly GearUnit[];
  readonly cylinders: readonly Cylinder[];
  readonly people: readonly Person[];
  readonly rateCard: RateCard;
  readonly jobs: readonly Job[];
}
