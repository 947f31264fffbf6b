export interface PageQuery {
  readonly q?: string | string[];
  readonly page?: string | string[];
  readonly show?: string | string[];
}

/** What an address asks of a list; whatever makes no sense counts as not asked. */
export function readPageQuery({ q, page, show }: PageQuery): { query: string; page: number; archived: boolean } {
  const asked = Number(one(page));
  return {
    query: one(q).slice(0, 200).replaceAll("\0", "").trim(),
    page: Number.isInteger(asked) && asked > 0 && asked < 100_000 ? asked : 0,
    archived: one(show) === "archived",
  };
}

function one(value: string | string[] | undefined): string {
  return (Array.isArray(value) ? value[0] : value) ?? "";
}
