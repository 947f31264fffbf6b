/** A calendar date (YYYY-MM-DD) as the database client wants it; it has no time and no zone. */
export function toColumn(date: string | null): Date | null {
  return date === null ? null : new Date(`${date}T00:00:00Z`);
}

export function fromColumn(date: Date | null): string | null {
  return date === null ? null : date.toISOString().slice(0, 10);
}
