interface GearFacts {
  /** Tag painted on the unit. */
  readonly id: string;
  readonly description: string;
  readonly baseId: string;
  /** Local day, "yyyy-MM-dd"; null where the kind needs no calibration. */
  readonly calibrationDue: string | null;
  /** Refrigerant it last held; null when clean or when it never holds any. */
  readonly lastRefrigerant: string | null;
  /** Time to clean it for another refrigerant. */
  readonly cleanOut_s: number;
}

export interface RecoveryMachine extends GearFacts {
  readonly kind: 'recovery machine';
  /** Rated vapour flow at 24 degC saturation of the rating refrigerant. */
  readonly vapourRate_kg_s: number;
  readonly directLiquidRate_kg_s: number;
  readonly ratingRefrigerant: string;
  /** Lowest suction pressure it can reach, absolute. */
  readonly finalVacuum_Pa: number;
  readonly coolerBypass: boolean;
  /** Heat conductance of its cooler when left in circuit. */
  readonly cooler_W_K: number;
  readonly flammableSafe: boolean;
  readonly pressureClasses: readonly ('low' | 'medium' | 'high' | 'very high')[];
  /** Local day it was made: the recovery level depends on it. */
  readonly made: string;
}

export interface VacuumPump extends GearFacts {
  readonly kind: 'vacuum pump';
  readonly speed_m3_s: number;
  readonly ultimate_Pa: number;
}

export interface Scale extends GearFacts {
  readonly kind: 'scale';
  readonly capacity_kg: number;
  readonly resolution_kg: number;
}

export interface HoseSet extends GearFacts {
  readonly kind: 'hose set';
  readonly use: 'transfer' | 'vacuum';
  readonly bore_m: number;
  readonly length_m: number;
  /** Smallest bore at the couplings. */
  readonly fittingBore_m: number;
  /** Smallest bore in the valves at its ends; equal to the hose bore when full-bore. */
  readonly valveBore_m: number;
  readonly roughness_m: number;
}

export interface CoreTool extends GearFacts {
  readonly kind: 'core tool';
}

export interface VacuumGauge extends GearFacts {
  readonly kind: 'vacuum gauge';
}

export interface Heater extends GearFacts {
  readonly kind: 'heater';
  readonly power_W: number;
}

export interface NitrogenSet extends GearFacts {
  readonly kind: 'nitrogen set';
  readonly cylinderVolume_m3: number;
  readonly fillPressure_Pa: number;
  readonly cylinders: number;
}

export type GearUnit =
  RecoveryMachine | VacuumPump | Scale | HoseSet | CoreTool | VacuumGauge | Heater | NitrogenSet;
export type GearKind = GearUnit['kind'];

/** A refrigerant cylinder: while it holds gas it is a booked resource. */
export interface Cylinder {
  /** Tag on the collar. */
  readonly id: string;
  readonly baseId: string;
  readonly waterCapacity_kg: number;
  readonly tare_kg: number;
  readonly ports: 1 | 2;
  readonly servicePressure_Pa_gauge: number;
  /** Single-trip cylinders are never refilled. */
  readonly refillable: boolean;
  /** Local day the next requalification is due. */
  readonly requalificationDue: string;
  readonly owner: string;
  readonly refrigerant: string | null;
  readonly contents_kg: number;
  readonly contentsKind: 'empty' | 'new' | 'recovered' | 'reclaimed';
  /** Local day on which it will be delivered; absent: it is there. */
  readonly availableFrom?: string;
}
