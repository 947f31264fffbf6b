import type { Source } from "./source";

/** Which list of Regulation (EU) 2024/573 a gas stands in; the rest is outside this duty. */
export type EuGasList = "annex-1" | "annex-2-section-1" | "not-listed";

/** How often a circuit is checked, by CO2 equivalent (Annex I) or mass (Annex II section 1). */
export const EU_CHECK_BANDS = [
  { fromT: 5, fromKg: 1, months: 12, monthsWithDetection: 24 },
  { fromT: 50, fromKg: 10, months: 6, monthsWithDetection: 12 },
  { fromT: 500, fromKg: 100, months: 3, monthsWithDetection: 6 },
] as const;

export const EU_HERMETIC_EXEMPT_BELOW = { tonnes: 10, kg: 2 } as const;
export const EU_DETECTION_FROM = { tonnes: 500, kg: 100, checkedEveryMonths: 12 } as const;
export const EU_RECHECK = { notBeforeHours: 24, withinMonths: 1 } as const;

export const EU_SOURCES = {
  interval: { source: "Regulation (EU) 2024/573, Article 5", mark: "memory" },
  hermetic: {
    source: "Regulation (EU) 2024/573, Article 5: sealed, labelled, connected parts under 3 g a year",
    mark: "memory",
  },
  detection: { source: "Regulation (EU) 2024/573, Article 6", mark: "secondary" },
  recheck: {
    source: "Regulation (EU) 2024/573, Article 5: within a month; after 24 h of running (memory)",
    mark: "secondary",
  },
  records: { source: "Regulation (EU) 2024/573, Article 7", mark: "secondary" },
} as const satisfies Readonly<Record<string, Source>>;
