import type { GearKind } from './gear.ts';
import type { OwnNorm } from './time-norm.ts';

/** A price for each unit of mass: minor units for so many kilograms, so that "12.40 a lb" stays exact. */
export interface MassPrice {
  readonly minorUnits: number;
  readonly per_kg: number;
}

export interface LabourRate {
  readonly labourClass: string;
  readonly costPerHour_minor: number;
}

/** Premiums are multiples of the straight rate. */
export interface OvertimeRule {
  readonly dailyAfter_h: number | null;
  readonly dailyMultiplier: number;
  readonly weeklyAfter_h: number | null;
  readonly weeklyMultiplier: number;
  readonly nightFrom: string;
  readonly nightTo: string;
  readonly nightMultiplier: number;
}

export interface RefrigerantPrice {
  readonly refrigerant: string;
  readonly price: MassPrice;
  /** Last local day of the supplier's price. */
  readonly validUntil: string;
}

/** How the firm wants its estimates made; whatever is absent is as usual. */
export interface EstimatingPolicy {
  /** Certainty at which ways are ranked by cost, 0.5 to 0.95; 0.8 unless given. */
  readonly certainty?: number;
  /** Empty cylinders taken along beyond those that the charge needs; 1 unless given. */
  readonly spareCylinders?: number;
}

export interface RateCard {
  readonly id: string;
  readonly currency: string;
  readonly validFrom: string;
  readonly validUntil: string;
  readonly labour: readonly LabourRate[];
  readonly travelPerHour_minor: number;
  readonly vehiclePerKilometre_minor: number;
  readonly overtime: OvertimeRule;
  readonly gearPerDay: readonly { readonly kind: GearKind; readonly costPerDay_minor: number }[];
  readonly cylinderPerDay_minor: number;
  readonly refrigerants: readonly RefrigerantPrice[];
  readonly nitrogenCylinder_minor: number;
  readonly filterDrier_minor: number;
  readonly vacuumOilChange_minor: number;
  readonly permit_minor: number;
  /** Share of cost added for indirect cost, 0 to 1. */
  readonly overhead: number;
  /** Share of price kept, 0 up to 1: price = cost / (1 - margin). */
  readonly margin: number;
  /** Share of price added as tax, 0 to 1. */
  readonly tax: number;
  /** The firm's own time norms; absent: the standard ones. */
  readonly timeNorms?: readonly OwnNorm[];
  readonly policy?: EstimatingPolicy;
}
