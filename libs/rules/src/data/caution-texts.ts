/** Ends every caution. */
const DEFER = 'Local code and the licensed technician decide.';

/** Cautions for quotes and job sheets. Own words. */
export const CAUTION_TEXTS = {
  nitrogen: `Feed nitrogen only through a regulator with a relief valve set for the vessel. A full bottle can burst a chiller. Never use oxygen or shop air. ${DEFER}`,
  overfill: `Weigh every cylinder while it fills and stop at its limit. Liquid that has no room to expand bursts the cylinder. ${DEFER}`,
  'wrong cylinder': `Check the service pressure, test date and refrigerant marked on each cylinder. Never refill a disposable one or mix refrigerants. ${DEFER}`,
  asphyxiation: `Refrigerant and nitrogen push air out of low rooms and pits without a smell. Run the fans, watch the detector, do not work alone, leave on alarm. ${DEFER}`,
  frostbite: `Escaping liquid freezes skin and eyes at once. Wear goggles or shield, gloves and sleeves; open hoses slowly. ${DEFER}`,
  'freezing tubes': `Falling pressure can freeze water in the tubes. Keep water moving or drain it before pulling down, and charge vapour first. ${DEFER}`,
  flammable: `Remove ignition sources, ventilate, monitor for gas, use rated recovery and vacuum equipment, purge with dry nitrogen before opening and before charging. ${DEFER}`,
  lockout: `Lock and tag power, water and valves, and prove zero energy, before opening the machine. ${DEFER}`,
  'hot work': `Recover, purge and keep nitrogen flowing before a torch touches the circuit. Permit, fire watch and extinguisher in place. Heated refrigerant gives toxic gas. ${DEFER}`,
  'pressure test': `Clear people away, raise pressure in steps, isolate parts rated lower, and never exceed the nameplate. ${DEFER}`,
  lifting: `A full half-ton cylinder is near 1,300 to 1,600 lb. Plan floor load, route and lifting gear. ${DEFER}`,
} as const;

export type CautionKey = keyof typeof CAUTION_TEXTS;
