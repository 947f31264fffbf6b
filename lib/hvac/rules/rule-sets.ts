import type { GwpSet } from "../refrigerants/global-warming";
import { EU_SOURCES } from "./eu-leak-checks";
import { EVACUATION_CRITERIA, type EvacuationCriterion } from "./evacuation-criteria";
import { PRESSURE_TEST_RULES, type PressureTestRule } from "./pressure-tests";
import type { Source } from "./source";
import { US_RECOVERY_SOURCES } from "./us-recovery";

export type RuleSetId = "us" | "eu";

/** What a company works under; chosen once, and each figure says where it stands. */
export interface RuleSet {
  readonly id: RuleSetId;
  readonly label: string;
  readonly gwpSet: GwpSet;
  readonly recovery: Source;
  readonly leakDuty: "leak-rate" | "leak-checks";
  readonly pressureTest: PressureTestRule;
  readonly defaultEvacuationId: EvacuationCriterion["id"];
  readonly recordYears: { readonly years: number } & Source;
  readonly certificates: { readonly kinds: readonly string[] } & Source;
  readonly venting: Source;
}

export const RULE_SETS: Readonly<Record<RuleSetId, RuleSet>> = {
  us: {
    id: "us",
    label: "United States: 40 CFR 82 subpart F, 40 CFR 84 subpart C",
    gwpSet: "us-40cfr84",
    recovery: US_RECOVERY_SOURCES.table,
    leakDuty: "leak-rate",
    pressureTest: PRESSURE_TEST_RULES.us,
    defaultEvacuationId: "mfr_typical",
    recordYears: { years: 3, source: "40 CFR 82.156(a)(3), 82.157(l), 84.106(l)", mark: "read" },
    certificates: {
      kinds: ["Type I", "Type II", "Type III", "Universal", "Section 609"],
      source: "40 CFR 82.161; no expiry",
      mark: "secondary",
    },
    venting: { source: "42 USC 7671g(c), 40 CFR 82.154", mark: "read" },
  },
  eu: {
    id: "eu",
    label: "European Union: Regulation (EU) 2024/573, EN 378",
    gwpSet: "eu-2024-573",
    recovery: {
      source: "the Regulation names no level; the levels of 40 CFR 82.156 Table 1 are used in its place",
      mark: "own-choice",
    },
    leakDuty: "leak-checks",
    pressureTest: PRESSURE_TEST_RULES.eu,
    defaultEvacuationId: "en378_iso5149",
    recordYears: { years: 5, ...EU_SOURCES.records },
    certificates: {
      kinds: ["A1", "A2", "B", "C", "D", "E"],
      source: "Implementing Regulation (EU) 2024/2215",
      mark: "read",
    },
    venting: { source: "Regulation (EU) 2024/573, Article 4", mark: "read" },
  },
};

/** The criterion a company starts from before a maker's instruction or its own rule replaces it. */
export function defaultEvacuationCriterion(id: RuleSetId): EvacuationCriterion {
  const criterion = EVACUATION_CRITERIA.find((row) => row.id === RULE_SETS[id].defaultEvacuationId);
  if (criterion === undefined) throw new RangeError(`no evacuation criterion for ${id}`);
  return criterion;
}
