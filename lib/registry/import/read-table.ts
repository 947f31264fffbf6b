import Papa from "papaparse";
import { err, ok, type Result } from "@/lib/result";

export const MAX_IMPORT_BYTES = 5 * 1024 * 1024;
export const MAX_IMPORT_ROWS = 10_000;
export const MAX_IMPORT_COLUMNS = 60;

export interface TableRow {
  /** Line of the file the row begins on, counted from 1 as an editor does. */
  readonly lineNumber: number;
  readonly cells: readonly string[];
}
export interface ImportTable {
  readonly headings: readonly string[];
  readonly rows: readonly TableRow[];
}

export type TableError =
  | { readonly code: "too-big"; readonly bytes: number }
  | { readonly code: "empty" }
  | { readonly code: "not-text" }
  | { readonly code: "too-many-rows"; readonly rows: number }
  | { readonly code: "too-many-columns"; readonly columns: number }
  | { readonly code: "quote-not-closed"; readonly lineNumber: number }
  | {
      readonly code: "cells-do-not-fit";
      readonly lineNumber: number;
      readonly cells: number;
      readonly headings: number;
    };

/**
 * The table in a pasted or uploaded text: comma, semicolon or tab between cells (found out), the first line as headings.
 * Blank lines are left out; what spreadsheets put before a dangerous cell is taken off again.
 */
export function readTable(text: string): Result<ImportTable, TableError> {
  const bytes = new TextEncoder().encode(text).length;
  if (bytes > MAX_IMPORT_BYTES) return err({ code: "too-big", bytes });
  if (text.includes("\0") || text.includes("\ufffd")) return err({ code: "not-text" });
  const plain = text.replace(/^\ufeff/, "").replace(/\r\n?/g, "\n");
  const all: TableRow[] = [];
  let lineNumber = 1;
  let from = 0;
  let openQuote: number | null = null;
  Papa.parse<string[]>(plain, {
    newline: "\n",
    delimiter: delimiterOf(plain),
    step: ({ data, errors, meta }) => {
      if (errors.some((error) => error.type === "Quotes")) openQuote ??= lineNumber;
      if (data.some((cell) => cell.trim() !== "")) all.push({ lineNumber, cells: data.map(plainCell) });
      lineNumber += countLineEnds(plain, from, meta.cursor);
      from = meta.cursor;
    },
  });
  if (openQuote !== null) return err({ code: "quote-not-closed", lineNumber: openQuote });
  const [head, ...rows] = all;
  if (!head || rows.length === 0) return err({ code: "empty" });
  const headings = head.cells;
  if (headings.length > MAX_IMPORT_COLUMNS) return err({ code: "too-many-columns", columns: headings.length });
  if (rows.length > MAX_IMPORT_ROWS) return err({ code: "too-many-rows", rows: rows.length });
  const ragged = rows.find(({ cells }) => cells.slice(headings.length).some((cell) => cell !== ""));
  if (ragged) {
    const { cells } = ragged;
    return err({
      code: "cells-do-not-fit",
      lineNumber: ragged.lineNumber,
      cells: cells.length,
      headings: headings.length,
    });
  }
  return ok({ headings, rows });
}

/** The headings decide: whatever of the three stands between most of them. */
function delimiterOf(text: string): string {
  const headings = text
    .trimStart()
    .split("\n", 1)[0]!
    .replace(/"[^"]*"/g, "");
  const count = (delimiter: string) => headings.split(delimiter).length;
  return [",", ";", "\t"].reduce((best, each) => (count(each) > count(best) ? each : best));
}

function countLineEnds(text: string, from: number, to: number): number {
  let ends = 0;
  for (let at = text.indexOf("\n", from); at >= 0 && at < to; at = text.indexOf("\n", at + 1)) ends++;
  return ends;
}

const DANGEROUS = /^[=+\-@\t\r]/;

/** A cell as an export writes it: one that a spreadsheet would compute gets an apostrophe before it. */
export function exportCell(text: string): string {
  return DANGEROUS.test(text) || /^'[=+\-@\t\r']/.test(text) ? `'${text}` : text;
}

function plainCell(cell: string): string {
  const text = /^'[=+\-@\t\r']/.test(cell) ? cell.slice(1) : cell;
  return text.trim();
}

/** A file our own import reads back to the same cells. */
export function writeTable(headings: readonly string[], rows: readonly (readonly string[])[]): string {
  return Papa.unparse(
    [headings, ...rows].map((row) => row.map(exportCell)),
    { newline: "\r\n" },
  );
}
