import * as z from "zod";
import { toKg } from "@/lib/hvac/units";
import { err, ok, type Result } from "@/lib/result";
import { refrigerantName } from "../circuit";
import { type CustomerFields, customerForm, type SiteFields, siteForm } from "../customer";
import { APPLIANCE_KINDS, type ApplianceKind, type EquipmentFields, equipmentForm } from "../equipment";
import { optionalNumber } from "../fields";
import { type FieldErrors, readFields } from "../form";
import type { ColumnMapping, ImportField } from "./columns";
import type { ImportTable, TableRow } from "./read-table";

/** One line of the file as the register would hold it: a customer, perhaps a site of it, perhaps a unit there. */
export interface ImportRow {
  readonly lineNumber: number;
  readonly customer: CustomerFields;
  readonly site: SiteFields | null;
  readonly unit: (EquipmentFields & { readonly nameplate: Nameplate }) | null;
}
export interface Nameplate {
  readonly nameplateRefrigerant: string | null;
  readonly factoryChargeKg: number | null;
}
export interface RowError {
  readonly lineNumber: number;
  readonly field: ImportField;
  /** The column's heading in the file; null when the file has no such column. */
  readonly heading: string | null;
  readonly message: string;
}

type Cells = Readonly<Partial<Record<ImportField, string>>>;
type Errors = Readonly<Partial<Record<ImportField, string>>>;

/** Reads every row by the mapping; what is wrong is listed by line and column, and no wrong row is among the rows. */
export function judgeRows(
  table: ImportTable,
  mapping: ColumnMapping,
  companyTimeZone: string,
): { readonly rows: readonly ImportRow[]; readonly errors: readonly RowError[] } {
  const rows: ImportRow[] = [];
  const errors: RowError[] = [];
  for (const row of table.rows) {
    const read = readRow(row, cellsOf(row, mapping), companyTimeZone);
    if (read.ok) rows.push(read.value);
    else
      for (const [field, message] of Object.entries(read.error) as [ImportField, string][]) {
        const heading = table.headings[mapping.indexOf(field)] ?? null;
        errors.push({ lineNumber: row.lineNumber, field, heading, message });
      }
  }
  return { rows, errors };
}

function cellsOf(row: TableRow, mapping: ColumnMapping): Cells {
  const cells: Partial<Record<ImportField, string>> = {};
  mapping.forEach((field, column) => {
    const text = row.cells[column] ?? "";
    if (field && text !== "") cells[field] = text;
  });
  return cells;
}

function readRow(row: TableRow, cells: Cells, companyTimeZone: string): Result<ImportRow, Errors> {
  const customer = readFields(
    {
      name: cells.customerName ?? "",
      phone: cells.customerPhone ?? "",
      email: cells.customerEmail ?? "",
      note: cells.customerNote ?? "",
    },
    customerForm,
  );
  const site = hasAny(cells, "site") || hasUnit(cells) ? readSite(cells, companyTimeZone) : ok(null);
  const unit = hasUnit(cells) ? readUnit(cells) : ok(null);
  if (customer.ok && site.ok && unit.ok)
    return ok({ lineNumber: row.lineNumber, customer: customer.value, site: site.value, unit: unit.value });
  const customerErrors = customer.ok ? {} : named("customer", customer.error.fields);
  return err({ ...customerErrors, ...(site.ok ? {} : site.error), ...(unit.ok ? {} : unit.error) });
}

function readSite(cells: Cells, companyTimeZone: string): Result<SiteFields, Errors> {
  const site = readFields(
    {
      name: cells.siteName ?? cells.siteStreet ?? "",
      street: cells.siteStreet ?? "",
      city: cells.siteCity ?? "",
      postalCode: cells.sitePostalCode ?? "",
      region: cells.siteRegion ?? "",
      country: cells.siteCountry ?? "",
      timeZone: cells.siteTimeZone ?? companyTimeZone,
      latitude: cells.siteLatitude ?? "",
      longitude: cells.siteLongitude ?? "",
      accessNote: cells.siteAccessNote ?? "",
    },
    siteForm,
  );
  return site.ok ? site : err(named("site", site.error.fields));
}

const nameplateShape = z
  .strictObject({
    refrigerant: refrigerantName,
    chargeKg: optionalNumber({ over: 0, max: 50_000 }),
    chargeLb: optionalNumber({ min: 0, max: 100_000 }),
    chargeOz: optionalNumber({ min: 0, max: 100_000 }),
  })
  .refine(({ chargeKg, chargeLb, chargeOz }) => chargeKg === null || (chargeLb === null && chargeOz === null), {
    path: ["chargeKg"],
    error: "The charge stands here in kg and in lb or oz. Keep one.",
  })
  .transform(({ refrigerant, chargeKg, chargeLb, chargeOz }): Nameplate => {
    const kg = chargeKg ?? toKg(chargeLb ?? 0, "lb") + toKg(chargeOz ?? 0, "oz");
    return { nameplateRefrigerant: refrigerant || null, factoryChargeKg: kg > 0 ? kg : null };
  });

function readUnit(cells: Cells): Result<NonNullable<ImportRow["unit"]>, Errors> {
  const unit = readFields(
    {
      name: cells.unitName ?? cells.unitModel ?? cells.unitSerial ?? "",
      maker: cells.unitMaker ?? "",
      model: cells.unitModel ?? "",
      serial: cells.unitSerial ?? "",
      yearMade: cells.unitYearMade ?? "",
      place: cells.unitPlace ?? "",
      applianceKind: applianceKindOf(cells.unitApplianceKind),
    },
    equipmentForm,
  );
  const nameplate = readFields(
    {
      refrigerant: cells.refrigerant ?? "",
      chargeKg: cells.chargeKg ?? "",
      chargeLb: cells.chargeLb ?? "",
      chargeOz: cells.chargeOz ?? "",
    },
    nameplateShape,
  );
  if (unit.ok && nameplate.ok) return ok({ ...unit.value, nameplate: nameplate.value });
  const unitErrors = unit.ok ? {} : named("unit", unit.error.fields);
  return err({ ...unitErrors, ...(nameplate.ok ? {} : (nameplate.error.fields as Errors)) });
}

/** The kind by its own name, however spaced; an unknown word is passed on to be refused by name. */
function applianceKindOf(cell: string | undefined): ApplianceKind | string {
  const plain = (cell ?? "comfort_cooling").toLowerCase().replace(/[\s-]+/g, "_");
  return APPLIANCE_KINDS.find((kind) => kind === plain) ?? plain;
}

const hasAny = (cells: Cells, prefix: string) => Object.keys(cells).some((field) => field.startsWith(prefix));
const hasUnit = (cells: Cells) => hasAny(cells, "unit") || hasAny(cells, "charge") || cells.refrigerant !== undefined;

function named(prefix: "customer" | "site" | "unit", fields: FieldErrors): Errors {
  return Object.fromEntries(
    Object.entries(fields).map(([field, message]) => [
      prefix + field.charAt(0).toUpperCase() + field.slice(1),
      message,
    ]),
  );
}
