import type { Disturbance } from "./whiten";

/** What else may have moved the pressure (null: nothing), and how likely that was before anything was read. */
export interface LikelyDisturbance {
  readonly disturbance: Disturbance | null;
  readonly chance: number;
}

const CALM = 0.7;
const FADES_S = [120, 600, 3000] as const;
const RATIOS = [0.5, 2, 8, 32] as const;

/** Mostly nothing; else sun on the coil, a draught or a gauge that drifts, of any size and speed. */
export function likelyDisturbances(readings: number): readonly LikelyDisturbance[] {
  const calm = { disturbance: null, chance: CALM };
  if (readings < 4) return [calm];
  const chance = (1 - CALM) / RATIOS.length / FADES_S.length;
  return [calm, ...RATIOS.flatMap((ratio) => FADES_S.map((fadeS) => ({ disturbance: { ratio, fadeS }, chance })))];
}
