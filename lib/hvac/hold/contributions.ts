import type { FitPoint } from "./fit-points";

/**
 * One contribution to the pressure of an isolated circuit. Every one but the leak fades, and none but the first
 * minute's settling can be negative: that is what bounds the leak.
 *
 * level: where the pressure ends once everything has faded. leak: a steady rise, from `fromS` on.
 * fade: water or refrigerant leaving oil, a film evaporating, surfaces giving off gas: any sum of relaxations with
 * non-negative weights, so no single law (1/t, root of t, exponential) is presumed. late-fade: the same begun later,
 * as when a crankcase heater comes on. film: a steady source that runs dry. settle: gas and gauge coming to rest.
 * sway: the sun coming and going, unseen. drift: what an unseen change of temperature or of the gauge may do. warmth: what the coil's temperature does
 * beyond the gas law. `sigma`: how large its one unit's factor is expected to be, either way.
 */
export type Contribution =
  | { readonly kind: "level" }
  | { readonly kind: "leak"; readonly fromS: number }
  | { readonly kind: "fade"; readonly tauS: number }
  | { readonly kind: "late-fade"; readonly fromS: number; readonly tauS: number }
  | { readonly kind: "film"; readonly untilS: number }
  | { readonly kind: "settle"; readonly tauS: number; readonly sigma: number }
  | { readonly kind: "drift"; readonly aboutS: number; readonly sigma: number }
  | { readonly kind: "sway"; readonly perS: number; readonly phase: number; readonly sigma: number }
  | { readonly kind: "warmth"; readonly sigma: number };

/** A moment of the hold: when, how warm, and about which pressure. */
export type Moment = Pick<FitPoint, "atS" | "temperatureRatio" | "warmingK" | "pressurePa">;

/** Pressure in Pa at a moment. */
export type Curve = (moment: Moment) => number;

/** What one unit of a contribution adds, in Pa; asked once a contribution, so that no moment looks up its kind. */
export function shapeOf(one: Contribution): Curve {
  switch (one.kind) {
    case "level":
      return (at) => at.temperatureRatio;
    case "leak":
      return (at) => at.temperatureRatio * Math.max(0, at.atS - one.fromS);
    case "fade":
      return (at) => -at.temperatureRatio * Math.exp(-at.atS / one.tauS);
    case "late-fade":
      return (at) => -at.temperatureRatio * Math.exp(-Math.max(0, at.atS - one.fromS) / one.tauS);
    case "film":
      return (at) => -at.temperatureRatio * Math.max(0, one.untilS - at.atS);
    case "settle":
      return (at) => Math.exp(-at.atS / one.tauS);
    case "drift":
      return (at) => (at.atS - one.aboutS) * at.pressurePa;
    case "sway":
      return (at) => at.pressurePa * Math.sin(one.perS * at.atS + one.phase);
    case "warmth":
      return (at) => at.warmingK;
  }
}

/** What one unit of a contribution adds at each point, in its noise. */
export function columnOf(contribution: Contribution, points: readonly FitPoint[]): readonly number[] {
  const shape = shapeOf(contribution);
  return points.map((point) => shape(point) / point.sigmaPa);
}

/** Whether it may also lower the pressure. */
export function isSigned(one: Contribution): boolean {
  return one.kind === "level" || "sigma" in one;
}

/** One over its variance before anything was read; 0 where it may be anything. */
export function priorWeight(one: Contribution): number {
  return "sigma" in one ? 1 / one.sigma ** 2 : 0;
}
