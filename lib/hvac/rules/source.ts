/**
 * How far a figure may be trusted: read in the named text; read in a page that states it; calculated from a
 * published equation; recalled and not read; trade habit without a source; this product's own choice.
 */
export type Mark = "read" | "secondary" | "computed" | "memory" | "common-practice" | "own-choice";

/** Where a figure comes from, as shown beside it. */
export interface Source {
  readonly source: string;
  readonly mark: Mark;
}
