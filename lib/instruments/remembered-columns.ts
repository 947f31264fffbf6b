import type { TableColumns } from "./reading-table";

/** How tables with the same headings were read last, the newest first. */
export type RememberedColumns = readonly { readonly headings: string; readonly columns: TableColumns }[];

const MOST = 30;
const keyOf = (heading: readonly string[], vacuum: boolean) => JSON.stringify([vacuum, ...heading]);

/** The mapping and units used last for these headings; null for headings never met. */
export function recallColumns(
  remembered: RememberedColumns,
  heading: readonly string[],
  vacuum: boolean,
): TableColumns | null {
  return remembered.find(({ headings }) => headings === keyOf(heading, vacuum))?.columns ?? null;
}

export function rememberColumns(
  remembered: RememberedColumns,
  heading: readonly string[],
  vacuum: boolean,
  columns: TableColumns,
): RememberedColumns {
  const headings = keyOf(heading, vacuum);
  return [{ headings, columns }, ...remembered.filter((each) => each.headings !== headings)].slice(0, MOST);
}
