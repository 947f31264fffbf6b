const DAY_MS = 86_400_000;

/** Whole days from one calendar day to another, both "2026-11-25": free of time zones and clock changes. */
export function daysBetween(from: string, to: string): number {
  return Math.round((midnight(to) - midnight(from)) / DAY_MS);
}

export function addDays(day: string, days: number): string {
  return new Date(midnight(day) + days * DAY_MS).toISOString().slice(0, 10);
}

/** The same day some months later, or the last of that month where it has no such day. */
export function addMonths(day: string, months: number): string {
  const [year, month, dayOfMonth] = day.split("-").map(Number) as [number, number, number];
  const lastOfMonth = new Date(Date.UTC(year, month - 1 + months + 1, 0)).getUTCDate();
  return new Date(Date.UTC(year, month - 1 + months, Math.min(dayOfMonth, lastOfMonth))).toISOString().slice(0, 10);
}

function midnight(day: string): number {
  return Date.parse(`${day}T00:00:00Z`);
}
