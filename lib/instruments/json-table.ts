import { err, ok, type Result } from "@/lib/result";

export interface TextTable {
  readonly heading: readonly string[];
  readonly rows: readonly (readonly string[])[];
}

/** Whether a text is meant as JSON: no table of numbers begins like this. */
export function looksLikeJson(text: string): boolean {
  return /^[\s\uFEFF]*[[{]/.test(text);
}

/**
 * A list of readings in JSON as a table: a list of objects or of lists, or an object with one such list in it. Headings are the names
 * met, in the order met; a value that is no number or text is left empty.
 */
export function readJsonTable(text: string): Result<TextTable, string> {
  let content: unknown;
  try {
    content = JSON.parse(text.replace(/^\uFEFF/, ""));
  } catch {
    return err("It begins like JSON and cannot be read as JSON.");
  }
  const list = listIn(content);
  if (!list || list.length === 0) return err("There is no list of readings in it.");
  if (list.every((row) => Array.isArray(row))) {
    const width = Math.max(...list.map((row) => row.length));
    const heading = Array.from({ length: width }, (_, index) => `Column ${index + 1}`);
    return ok({ heading, rows: list.map((row) => heading.map((_, index) => cell(row[index]))) });
  }
  const heading = [...new Set(list.flatMap((row) => (isRecord(row) ? Object.keys(row) : [])))];
  if (heading.length === 0) return err("Its list holds neither objects nor lists.");
  return ok({ heading, rows: list.map((row) => heading.map((name) => cell(isRecord(row) ? row[name] : undefined))) });
}

function listIn(content: unknown): unknown[] | undefined {
  if (Array.isArray(content)) return content;
  if (!isRecord(content)) return undefined;
  const lists = Object.values(content).filter((value) => Array.isArray(value));
  return lists.length === 1 ? (lists[0] as unknown[]) : undefined;
}

function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

function cell(value: unknown): string {
  return typeof value === "number" || typeof value === "string" ? String(value) : "";
}
