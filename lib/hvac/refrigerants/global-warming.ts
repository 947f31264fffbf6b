import type { Refrigerant } from "./refrigerant";

/** Which list of global warming potentials counts: the two laws each name their own. */
export type GwpSet = "eu-2024-573" | "us-40cfr84" | "ipcc-ar5" | "ipcc-ar6";

/** @source all recalled from the named tables, not read (mark: memory) */
export const GWP_SET_SOURCES: Readonly<Record<GwpSet, string>> = {
  "eu-2024-573": "Regulation (EU) 2024/573, Annexes I, II and VI",
  "us-40cfr84": "40 CFR Part 84 Appendix A, exchange values; others by the rule's own list",
  "ipcc-ar5": "IPCC AR5 WG1 chapter 8 (2013), 100 years",
  "ipcc-ar6": "IPCC AR6 WG1 chapter 7 supplement (2021), 100 years",
};

/** By substance, in the order of the sets: EU, US, AR5, AR6. R-22 stands in neither law's HFC list: AR4 value. */
const BY_SUBSTANCE: Readonly<Record<string, readonly [number, number, number, number]>> = {
  "R-32": [675, 675, 677, 771],
  "R-125": [3500, 3500, 3170, 3740],
  "R-134a": [1430, 1430, 1300, 1530],
  "R-143a": [4470, 4470, 4800, 5810],
  "R-1234yf": [0.501, 1, 1, 0.501],
  "R-1234ze(E)": [1.37, 1, 1, 1.37],
  "R-22": [1810, 1810, 1760, 1960],
  "R-290": [0.02, 3.3, 3, 0.02],
  "R-600a": [0, 3, 3, 0.006],
  "R-744": [1, 1, 1, 1],
  "R-717": [0, 0, 0, 0],
};
const COLUMN = { "eu-2024-573": 0, "us-40cfr84": 1, "ipcc-ar5": 2, "ipcc-ar6": 3 } as const;

/** Global warming potential relative to CO2 over 100 years; a blend by the masses of its substances. */
export function globalWarmingPotential(refrigerant: Refrigerant, set: GwpSet): number {
  let sum = 0;
  for (const [substance, massFraction] of Object.entries(refrigerant.massFractions)) {
    sum += massFraction * BY_SUBSTANCE[substance]![COLUMN[set]];
  }
  return sum;
}

/** CO2 equivalent of a charge in tonnes. @source Regulation (EU) 2024/573, Article 3: mass times GWP */
export function carbonDioxideEquivalentT(chargeKg: number, gwp: number): number {
  return (chargeKg * gwp) / 1000;
}
