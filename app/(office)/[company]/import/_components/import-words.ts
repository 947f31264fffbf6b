import type { ImportField, MappingError } from "@/lib/registry/import/columns";
import type { ImportWarning } from "@/lib/registry/import/plan-import";
import { MAX_IMPORT_COLUMNS, MAX_IMPORT_ROWS } from "@/lib/registry/import/read-table";
import type { ImportFailure } from "../actions";

export function failureText(failure: ImportFailure): string {
  switch (failure.code) {
    case "too-big":
      return `The file has ${(failure.bytes / 1024 / 1024).toFixed(1)} MB; up to 5 MB can be taken at once. Split it.`;
    case "empty":
      return "There is no line under the headings.";
    case "not-text":
      return "This is not a text file. In the spreadsheet choose “Save as CSV (UTF-8)”.";
    case "too-many-rows":
      return `The file has ${failure.rows} lines; up to ${MAX_IMPORT_ROWS} can be taken at once. Split it.`;
    case "too-many-columns":
      return `The file has ${failure.columns} columns; up to ${MAX_IMPORT_COLUMNS} can be taken.`;
    case "quote-not-closed":
      return `Line ${failure.lineNumber}: a quotation mark opens and never closes.`;
    case "cells-do-not-fit":
      return `Line ${failure.lineNumber} has ${failure.cells} cells, the headings only ${failure.headings}. A comma inside a cell needs quotation marks around the cell.`;
    case "malformed-request":
      return "The page is out of step with the server. Load it again.";
    case "has-errors":
      return "Some lines cannot be taken. They are listed below.";
  }
}

export function mappingText(error: MappingError): string {
  switch (error.code) {
    case "no-customer-column":
      return "Choose the column that names the customer.";
    case "unit-without-site-column":
      return "These lines speak of units: choose the column that names the site.";
    case "field-mapped-twice":
      return `Two columns are both “${fieldWord[error.field]}”. Keep one.`;
  }
}

export function warningText(warning: ImportWarning): string {
  switch (warning.code) {
    case "serial-elsewhere":
      return `Serial ${warning.serial} is on record at another place too. It will be created here as well.`;
    case "unit-on-two-lines":
      return `${warning.serial} stands on an earlier line already. One unit is created.`;
  }
}

export const fieldWord: Record<ImportField, string> = {
  customerName: "Customer: name",
  customerPhone: "Customer: phone",
  customerEmail: "Customer: e-mail",
  customerNote: "Customer: note",
  siteName: "Site: name",
  siteStreet: "Site: street",
  siteCity: "Site: city",
  sitePostalCode: "Site: postal code",
  siteRegion: "Site: state or region",
  siteCountry: "Site: country",
  siteTimeZone: "Site: time zone",
  siteLatitude: "Site: latitude",
  siteLongitude: "Site: longitude",
  siteAccessNote: "Site: how to get in",
  unitName: "Unit: name",
  unitMaker: "Unit: maker",
  unitModel: "Unit: model",
  unitSerial: "Unit: serial",
  unitYearMade: "Unit: year made",
  unitPlace: "Unit: place",
  unitApplianceKind: "Unit: kind of appliance",
  refrigerant: "Circuit: nameplate refrigerant",
  chargeKg: "Circuit: factory charge in kg",
  chargeLb: "Circuit: factory charge in lb",
  chargeOz: "Circuit: factory charge in oz (added to lb)",
};
