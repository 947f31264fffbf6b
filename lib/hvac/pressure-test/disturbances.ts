import type { Disturbance } from "./whiten";

/** What else may have moved the pressure, and how likely that was before anything was read. */
export interface LikelyDisturbance {
  readonly disturbance: Disturbance;
  /** On what is read, or on what is around the gas, which then follows it with its lag; or nothing but the thermometer erred. */
  readonly on: "nothing" | "reading" | "surroundings";
  readonly chance: number;
}

const CALM = 0.88;
const ON_READING = 0.06;
const READING_RATIOS = [0.5, 2] as const;
const READING_FADES_S = [600, 3000] as const;
/** Sun on a coil or a draught through it that the thermometer does not feel. */
const SURROUNDINGS_K = [0.12, 0.6, 3] as const;
const SURROUNDINGS_FADES_S = [300, 1500] as const;

/** Mostly nothing; else sun on the coil, a draught or a gauge that drifts. */
export function likelyDisturbances(readings: number, noisePerK: number): readonly LikelyDisturbance[] {
  const calm = { disturbance: { ratio: 0, fadeS: 1 }, on: "nothing" as const, chance: CALM };
  if (readings < 4) return [calm];
  const readingChance = ON_READING / READING_RATIOS.length / READING_FADES_S.length;
  const aroundChance = (1 - CALM - ON_READING) / SURROUNDINGS_K.length / SURROUNDINGS_FADES_S.length;
  return [
    calm,
    ...READING_RATIOS.flatMap((ratio) =>
      READING_FADES_S.map((fadeS) => ({
        disturbance: { ratio, fadeS },
        on: "reading" as const,
        chance: readingChance,
      })),
    ),
    ...SURROUNDINGS_K.flatMap((sizeK) =>
      SURROUNDINGS_FADES_S.map((fadeS) => ({
        disturbance: { ratio: sizeK * noisePerK, fadeS },
        on: "surroundings" as const,
        chance: aroundChance,
      })),
    ),
  ];
}
