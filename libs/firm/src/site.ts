import type { LocalSpan, WeeklyWindow } from './calendar-facts.ts';

/** A place where chillers stand. */
export interface Site {
  readonly id: string;
  readonly name: string;
  /** IANA zone; every wall-clock time of the site is meant in it. */
  readonly timeZone: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly elevation_m: number;
  /** Typical temperature round the machine by month, January first. */
  readonly ambient_K: readonly number[];
  /** When people may work; empty means at any time. */
  readonly access: readonly WeeklyWindow[];
  /** When machines may be out of service; empty means at any time. */
  readonly outages: readonly LocalSpan[];
  /** May a pump or a pressure hold run with nobody on site? */
  readonly unattendedAllowed: boolean;
  readonly twoPersonRule: boolean;
  readonly induction: 'ordinary' | 'strict';
  readonly carryIn: 'ground level' | 'roof or basement';
}

/** A machine on a site, described by class and rating. */
export interface Chiller {
  readonly id: string;
  readonly siteId: string;
  readonly description: string;
  readonly refrigerant: string;
  /** Null where the plate can't be read: a stop, never a guess. */
  readonly nameplateCharge_kg: number | null;
  readonly cooling: 'air-cooled' | 'water-cooled';
  readonly evaporator: 'direct-expansion' | 'flooded' | 'falling-film';
  /** Null where it has never been measured: estimated from the charge, and said so. */
  readonly internalVolume_m3: number | null;
  readonly circuits: number;
  readonly liquidPort_m: number;
  readonly vapourPort_m: number;
  /** Allowed nitrogen test pressure, gauge. */
  readonly testPressure_Pa_gauge: number;
  readonly evaporatorFluid: 'water' | 'glycol' | 'none';
  /** Freezing point of the fluid in the evaporator. */
  readonly freezingPoint_K: number;
  /** Can water flow through the barrels while work goes on? */
  readonly waterFlow: boolean;
}
