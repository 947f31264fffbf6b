import { micronToPa, STANDARD_ATMOSPHERE_PA, toPa } from "../units";
import type { Source } from "./source";

/** One published or customary way to tell that a circuit is evacuated; SI, pressures absolute. */
export interface EvacuationCriterion extends Source {
  readonly id: string;
  readonly label: string;
  readonly evacuate: {
    readonly targetPa: number;
    /** Pumping that goes on after the target is reached; null where none is asked for. */
    readonly dwellS: number | null;
    readonly preCycles: readonly { readonly toPa: number; readonly breakGas: "nitrogen" }[];
  };
  readonly hold: {
    readonly targetPa: number;
    readonly holdS: number;
    readonly maxFinalPa: number;
    readonly maxSteadyRisePaPerS: number;
    /** At or above this the hold has failed whatever the clock says; null where the row names no such level. */
    readonly failAtPa: number | null;
  };
  /** What the source does not say and this product fills in: its own choice, settable. */
  readonly ownChoice: readonly ("holdS" | "maxFinalPa" | "maxSteadyRisePaPerS")[];
}

/** No published limit was found for the steady part of the rise. @source own choice: 5 micron a minute */
export const DEFAULT_STEADY_RISE_PA_PER_S = micronToPa(5) / 60;
const DEFAULT_HOLD_S = 600;

interface PublishedRow extends Source {
  readonly id: string;
  readonly label: string;
  readonly targetPa: number;
  readonly holdMinutes?: number;
  readonly maxFinalPa?: number;
  readonly failAtPa?: number;
  readonly maxSteadyRisePaPerS?: number;
  readonly dwellMinutes?: number;
  readonly firstPullPa?: number;
}

const CHILLER_TARGET_PA = STANDARD_ATMOSPHERE_PA - toPa(29.8, "inHg");
const CHILLER_LOSS_PA = toPa(0.05, "inHg");

const published: readonly PublishedRow[] = [
  {
    id: "mfr_typical",
    label: "500 micron, ten minutes, at most 1 000",
    targetPa: micronToPa(500),
    holdMinutes: 10,
    maxFinalPa: micronToPa(1_000),
    source: "common practice",
    mark: "common-practice",
  },
  {
    id: "us_split_triple",
    label: "Split system, nitrogen break at 23 000 micron, 20 minutes under 500",
    targetPa: micronToPa(500),
    holdMinutes: 20,
    maxFinalPa: micronToPa(500),
    firstPullPa: micronToPa(23_000),
    source: "R-410A split-system installation instructions, several makers",
    mark: "read",
  },
  {
    id: "us_ductless",
    label: "Ductless, 15 minutes under 700 micron",
    targetPa: micronToPa(500),
    holdMinutes: 15,
    maxFinalPa: micronToPa(700),
    failAtPa: micronToPa(800),
    source: "mini-split installation manual",
    mark: "read",
  },
  {
    id: "us_deep",
    label: "Split system, 500 micron, the curve watched for seven minutes",
    targetPa: micronToPa(500),
    holdMinutes: 7,
    source: "split-system installation manual, graph of a deep vacuum",
    mark: "read",
  },
  {
    id: "chiller_r134a",
    label: "Chiller, 29.8 inHg and two hours more, a day under 0.05 inHg of loss",
    targetPa: CHILLER_TARGET_PA,
    dwellMinutes: 120,
    holdMinutes: 24 * 60,
    maxFinalPa: CHILLER_TARGET_PA + CHILLER_LOSS_PA,
    maxSteadyRisePaPerS: CHILLER_LOSS_PA / 86_400,
    source: "chiller start-up instructions; never below 33 F while water may freeze",
    mark: "read",
  },
  {
    id: "training_min",
    label: "500 micron for new or serviced systems",
    targetPa: micronToPa(500),
    source: "technician study material",
    mark: "secondary",
  },
  {
    id: "split_5torr",
    label: "5 Torr, one hour more",
    targetPa: micronToPa(5_000),
    dwellMinutes: 60,
    source: "R-410A service manuals",
    mark: "read",
  },
  {
    id: "en378_iso5149",
    label: "Under 270 Pa",
    targetPa: 270,
    maxFinalPa: 270,
    source: "EN 378-2:2016, ISO 5149-2:2014; hold time by charge size not confirmed",
    mark: "memory",
  },
  {
    id: "poe_deep",
    label: "POE or PVE oil, 250 micron, 15 minutes, at most 500",
    targetPa: micronToPa(250),
    holdMinutes: 15,
    maxFinalPa: micronToPa(500),
    source: "common practice",
    mark: "common-practice",
  },
  {
    id: "vrf",
    label: "Branched system, one hour under 500 micron",
    targetPa: micronToPa(500),
    holdMinutes: 60,
    maxFinalPa: micronToPa(500),
    source: "VRF installers' practice; check the maker",
    mark: "memory",
  },
  {
    id: "small_factory",
    label: "50 micron final",
    targetPa: micronToPa(50),
    source: "refrigeration textbook, section on evacuation",
    mark: "secondary",
  },
];

/** @source each row names its own; where it is silent the field stands in `ownChoice` */
export const EVACUATION_CRITERIA: readonly EvacuationCriterion[] = published.map(complete);

export function findEvacuationCriterion(id: string): EvacuationCriterion | undefined {
  return EVACUATION_CRITERIA.find((criterion) => criterion.id === id);
}

function complete(row: PublishedRow): EvacuationCriterion {
  const { id, label, source, mark, targetPa } = row;
  return {
    id,
    label,
    source,
    mark,
    evacuate: {
      targetPa,
      dwellS: row.dwellMinutes === undefined ? null : row.dwellMinutes * 60,
      preCycles: row.firstPullPa === undefined ? [] : [{ toPa: row.firstPullPa, breakGas: "nitrogen" }],
    },
    hold: {
      targetPa,
      holdS: row.holdMinutes === undefined ? DEFAULT_HOLD_S : row.holdMinutes * 60,
      maxFinalPa: row.maxFinalPa ?? 2 * targetPa,
      maxSteadyRisePaPerS: row.maxSteadyRisePaPerS ?? DEFAULT_STEADY_RISE_PA_PER_S,
      failAtPa: row.failAtPa ?? null,
    },
    ownChoice: [
      ...(row.holdMinutes === undefined ? (["holdS"] as const) : []),
      ...(row.maxFinalPa === undefined ? (["maxFinalPa"] as const) : []),
      ...(row.maxSteadyRisePaPerS === undefined ? (["maxSteadyRisePaPerS"] as const) : []),
    ],
  };
}
