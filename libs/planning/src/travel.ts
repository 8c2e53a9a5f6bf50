interface Place {
  readonly id: string;
  readonly latitude_deg: number;
  readonly longitude_deg: number;
}

/** Mean radius of the earth (IUGG), from memory. */
const EARTH_RADIUS_M = 6_371_009;
/** Roads are longer than the straight line: assumed, low confidence. */
const ROAD_FACTOR = 1.3;
/** Door to door, a loaded van: assumed, low confidence. */
const MEAN_SPEED_M_S = 18;
/** Loading and parking on every leg: assumed, low confidence. */
const LEG_S = 10 * 60;

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** Distance along the great circle, by the haversine formula [m]. */
export function greatCircleDistance(a: Place, b: Place): number {
  const half =
    Math.sin(radians(b.latitude_deg - a.latitude_deg) / 2) ** 2 +
    Math.cos(radians(a.latitude_deg)) *
      Math.cos(radians(b.latitude_deg)) *
      Math.sin(radians(b.longitude_deg - a.longitude_deg) / 2) ** 2;
  return 2 * EARTH_RADIUS_M * Math.asin(Math.min(1, Math.sqrt(half)));
}

/** Road distance by the straight line and a detour factor [m]. */
export function roadDistance(a: Place, b: Place): number {
  return a.id === b.id ? 0 : greatCircleDistance(a, b) * ROAD_FACTOR;
}

/** Door-to-door time between two places [s]; none from a place to itself. */
export function travelTime(a: Place, b: Place): number {
  return a.id === b.id ? 0 : roadDistance(a, b) / MEAN_SPEED_M_S + LEG_S;
}

/** Travel time between every pair, in whole minutes rounded up. */
export function travelMatrix(places: readonly Place[]): number[][] {
  return places.map((from) => places.map((to) => Math.ceil(travelTime(from, to) / 60)));
}
