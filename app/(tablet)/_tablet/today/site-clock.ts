/** The calendar day at the site, as YYYY-MM-DD. */
export function siteDay(atMs: number, timeZone: string): string {
  return new Intl.DateTimeFormat("en-CA", { timeZone }).format(atMs);
}

/** A moment as a value for a date-and-time field, by the site's clock: "2026-11-28T14:05". */
export function siteFieldValue(atMs: number, timeZone: string): string {
  const parts = { year: "numeric", month: "2-digit", day: "2-digit", hour: "2-digit", minute: "2-digit" } as const;
  return new Intl.DateTimeFormat("sv-SE", { timeZone, ...parts }).format(atMs).replace(" ", "T");
}

/** The moment such a value means at the site; times the clocks skip are moved on by the gap. Null where it is none. */
export function siteMoment(value: string, timeZone: string): Date | null {
  const asIfUtcMs = Date.parse(`${value}Z`);
  if (Number.isNaN(asIfUtcMs)) return null;
  const aheadMs = (atMs: number) => Date.parse(`${siteFieldValue(atMs, timeZone)}Z`) - atMs;
  const firstMs = asIfUtcMs - aheadMs(asIfUtcMs);
  const secondMs = asIfUtcMs - aheadMs(firstMs);
  return new Date(siteFieldValue(secondMs, timeZone) === value ? secondMs : Math.max(firstMs, secondMs));
}

/** How the site's clock is called that day: "CST". */
export function siteClockName(atMs: number, timeZone: string): string {
  const parts = new Intl.DateTimeFormat("en-US", { timeZone, timeZoneName: "short" }).formatToParts(atMs);
  return parts.find(({ type }) => type === "timeZoneName")?.value ?? timeZone;
}
