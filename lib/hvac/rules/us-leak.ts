import { toKg } from "../units";
import type { Source } from "./source";

export type LeakUse =
  | "industrial-process-refrigeration"
  | "commercial-refrigeration"
  | "comfort-cooling"
  | "refrigerated-transport"
  | "other";

/** Which part of the rule holds an appliance: ozone depleting substances, or HFC and their substitutes. */
export type LeakRulePart = "part-82" | "part-84";

/** Yearly loss, as a fraction of the full charge, above which repair is due. */
export const LEAK_TRIGGER_FRACTION: Readonly<Record<LeakUse, number>> = {
  "industrial-process-refrigeration": 0.3,
  "commercial-refrigeration": 0.2,
  "comfort-cooling": 0.1,
  "refrigerated-transport": 0.1,
  other: 0.1,
};
export const LEAK_TRIGGER_SOURCES: Readonly<Record<LeakRulePart, Source>> = {
  "part-82": { source: "40 CFR 82.157(c)", mark: "read" },
  "part-84": { source: "40 CFR 84.106", mark: "secondary" },
};

/** @source applicability: 40 CFR 82.157 [read]; 40 CFR 84.106, from 1 January 2026 [secondary] */
export const PART_82_LEAST_CHARGE_KG = toKg(50, "lb");
export const PART_84 = { leastChargeKg: toKg(15, "lb"), gwpAbove: 53, fromDate: "2026-01-01" } as const;

export const LEAK_DEADLINES = {
  repairDays: { days: 30, source: "40 CFR 82.157(d)", mark: "secondary" },
  repairDaysWithShutdown: { days: 120, source: "40 CFR 82.157(d)", mark: "secondary" },
  followUpDays: { days: 10, source: "40 CFR 82.157(e)", mark: "secondary" },
  planDays: { days: 30, source: "40 CFR 82.157(h)", mark: "secondary" },
  retrofitDays: { days: 365, source: "40 CFR 82.157(h)", mark: "secondary" },
} as const satisfies Readonly<Record<string, Source & { readonly days: number }>>;

export const CHRONIC_LEAK = {
  fraction: 1.25,
  reportBy: "03-01",
  source: "40 CFR 82.157(j)",
  mark: "secondary",
} as const satisfies Source & Record<string, unknown>;

/** @source memory of 40 CFR 82.157(g) and 84.106(g) */
export const QUARTERLY_INSPECTION_FROM_KG = toKg(500, "lb");
export const INSPECTION_SOURCE: Source = { source: "40 CFR 82.157(g), 84.106(g)", mark: "memory" };

export const LEAK_DETECTION = {
  fromChargeKg: toKg(1500, "lb"),
  uses: ["industrial-process-refrigeration", "commercial-refrigeration"] as readonly LeakUse[],
  newFrom: "2026-01-01",
  newWithinDays: 30,
  existingFrom: "2017-01-01",
  detectPpm: 10,
  alarmPpm: 100,
  alarmLossKg: toKg(50, "lb"),
  alarmLossFraction: 0.1,
  existingBy: "2027-01-01",
  source: "40 CFR 84.108",
  mark: "memory",
} as const;
