export interface Coordinates {
  readonly latitudeDeg: number;
  readonly longitudeDeg: number;
}

/** How people drive here: the way is longer than the crow's, and the mean speed rises with the distance. */
export interface RoadProfile {
  /** Road length over straight distance. */
  readonly roadFactor: number;
  /** Mean speed of ways up to each length; the last one holds for everything longer. */
  readonly speeds: readonly { readonly upToKm: number; readonly kmPerHour: number }[];
  /** Parking, walking, finding the door; added to every way between two places. */
  readonly arrivingS: number;
}

/** A start for a mixed area, common practice; a company sets its own, or asks a road service. */
export const MIXED_ROADS: RoadProfile = {
  roadFactor: 1.3,
  speeds: [
    { upToKm: 5, kmPerHour: 25 },
    { upToKm: 20, kmPerHour: 40 },
    { upToKm: 60, kmPerHour: 60 },
    { upToKm: Number.POSITIVE_INFINITY, kmPerHour: 80 },
  ],
  arrivingS: 180,
};

const EARTH_RADIUS_KM = 6371.0088;

/**
 * Straight distance over the ground in km.
 * @source haversine formula; mean Earth radius R1 of the GRS 80 ellipsoid, IUGG (Moritz 2000)
 */
export function greatCircleKm(a: Coordinates, b: Coordinates): number {
  const radians = Math.PI / 180;
  const half = (degrees: number) => Math.sin((degrees * radians) / 2) ** 2;
  const across = Math.cos(a.latitudeDeg * radians) * Math.cos(b.latitudeDeg * radians);
  const chord = half(b.latitudeDeg - a.latitudeDeg) + across * half(b.longitudeDeg - a.longitudeDeg);
  return 2 * EARTH_RADIUS_KM * Math.asin(Math.sqrt(Math.min(1, chord)));
}

/** Estimated seconds of travel from each place to each, whole seconds; a longer way never takes less time. */
export function estimateTravelSeconds(
  places: readonly Coordinates[],
  profile: RoadProfile,
): readonly (readonly number[])[] {
  return places.map((from, a) => places.map((to, b) => (a === b ? 0 : drivingS(greatCircleKm(from, to), profile))));
}

/** Estimated seconds of travel of one way, whole seconds. */
export function estimateWaySeconds(from: Coordinates, to: Coordinates, profile: RoadProfile): number {
  return drivingS(greatCircleKm(from, to), profile);
}

function drivingS(straightKm: number, { roadFactor, speeds, arrivingS }: RoadProfile): number {
  const km = straightKm * roadFactor;
  if (km === 0) return 0;
  // each stretch at its own speed, so that time rises with distance
  let hours = 0;
  let fromKm = 0;
  for (const { upToKm, kmPerHour } of speeds) {
    hours += Math.max(0, Math.min(km, upToKm) - fromKm) / kmPerHour;
    fromKm = upToKm;
  }
  return Math.round(hours * 3600) + arrivingS;
}
