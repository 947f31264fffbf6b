import * as z from "zod";
import { toKg } from "@/lib/hvac/units";
import { err, ok, type Result } from "@/lib/result";
import { line, optionalDate, optionalNumber } from "../fields";
import { readFields } from "../form";
import { readTable, type TableError } from "./read-table";

/** One line of an appliance list: which unit, its full charge, and one past addition where the line has one. */
export interface PastLine {
  readonly lineNumber: number;
  readonly serial: string;
  readonly customer: string;
  readonly unit: string;
  readonly fullChargeGrams: number | null;
  readonly installedOn: string | null;
  readonly addedOn: string | null;
  readonly addedGrams: number | null;
}
export interface PastError {
  readonly lineNumber: number;
  readonly column: string;
  readonly message: string;
}

/** Headings, upper and lower case and spaces aside. */
export const PAST_COLUMNS = {
  serial: ["serial", "serial number", "serial no"],
  customer: ["customer", "owner", "customer name"],
  unit: ["unit", "appliance", "equipment", "unit name"],
  chargeKg: ["full charge kg", "charge kg"],
  chargeLb: ["full charge lb", "charge lb", "full charge lbs", "charge lbs"],
  installedOn: ["installed", "installed on", "installation date"],
  addedOn: ["added on", "date added", "addition date", "date"],
  addedKg: ["added kg"],
  addedLb: ["added lb", "added lbs"],
} as const;
type Column = keyof typeof PAST_COLUMNS;

const mass = optionalNumber({ min: 0, max: 100_000 });
const shape = z
  .strictObject({
    serial: line(200),
    customer: line(200),
    unit: line(200),
    chargeKg: mass,
    chargeLb: mass,
    installedOn: optionalDate,
    addedOn: optionalDate,
    addedKg: mass,
    addedLb: mass,
  })
  .superRefine((row, context) => {
    const issue = (path: Column, message: string) => context.addIssue({ code: "custom", path: [path], message });
    if (row.serial === "" && row.unit === "") issue("serial", "Name the unit by its serial, or by customer and unit.");
    if (row.chargeKg !== null && row.chargeLb !== null) issue("chargeKg", "The charge stands here twice. Keep one.");
    if (row.addedKg !== null && row.addedLb !== null) issue("addedKg", "The addition stands here twice. Keep one.");
    const added = row.addedKg ?? row.addedLb;
    if (added !== null && added > 0 && row.addedOn === null) issue("addedOn", "Say on which day it was added.");
    if (row.addedOn !== null && !(added !== null && added > 0)) issue("addedKg", "Say how much was added.");
  });

/** Reads an appliance list; every fault by line and column, and no faulty line among the lines. */
export function readPastList(
  text: string,
): Result<
  { readonly lines: readonly PastLine[]; readonly errors: readonly PastError[] },
  TableError | { readonly code: "no-unit-column" }
> {
  const table = readTable(text);
  if (!table.ok) return table;
  const columns = table.value.headings.map(columnOf);
  if (!columns.includes("serial") && !columns.includes("unit")) return err({ code: "no-unit-column" });
  const lines: PastLine[] = [];
  const errors: PastError[] = [];
  for (const { lineNumber, cells } of table.value.rows) {
    const given = Object.fromEntries(Object.keys(PAST_COLUMNS).map((column) => [column, ""]));
    columns.forEach((column, index) => {
      if (column !== null) given[column] = cells[index] ?? "";
    });
    const read = readFields(given, shape);
    if (read.ok) lines.push(lineOf(lineNumber, read.value));
    else
      for (const [column, message] of Object.entries(read.error.fields)) errors.push({ lineNumber, column, message });
  }
  return ok({ lines, errors });
}

function lineOf(lineNumber: number, row: z.output<typeof shape>): PastLine {
  const grams = (kg: number | null, lb: number | null) => {
    const value = kg ?? (lb === null ? null : toKg(lb, "lb"));
    return value === null || value === 0 ? null : Math.round(value * 1000);
  };
  const { serial, customer, unit, installedOn, addedOn } = row;
  const addedGrams = grams(row.addedKg, row.addedLb);
  const fullChargeGrams = grams(row.chargeKg, row.chargeLb);
  return { lineNumber, serial, customer, unit, fullChargeGrams, installedOn, addedOn, addedGrams };
}

function columnOf(heading: string): Column | null {
  const plain = heading
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, " ")
    .trim();
  const found = Object.entries(PAST_COLUMNS).find(([, names]) => (names as readonly string[]).includes(plain));
  return (found?.[0] as Column | undefined) ?? null;
}
