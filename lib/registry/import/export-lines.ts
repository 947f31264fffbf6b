import { type ImportField, importFields } from "./columns";
import { writeTable } from "./read-table";

type Text = Readonly<Record<string, unknown>>;
export interface ExportCustomer extends Text {
  readonly sites: readonly (Text & {
    readonly equipment: readonly (Text & { readonly circuits: readonly Text[] })[];
  })[];
}

/** The register as a file our own import reads: one line a unit, or a site without units, or a customer without sites. */
export function writeRegister(customers: readonly ExportCustomer[]): string {
  const lines = customers.flatMap(({ sites, ...customer }) => {
    const ofCustomer = named("customer", customer);
    if (sites.length === 0) return [ofCustomer];
    return sites.flatMap(({ equipment, ...site }) => {
      const ofSite = { ...ofCustomer, ...named("site", site) };
      if (equipment.length === 0) return [ofSite];
      return equipment.map(({ circuits: [circuit], ...unit }) => ({
        ...ofSite,
        ...named("unit", unit),
        refrigerant: circuit?.nameplateRefrigerant,
        chargeKg: circuit?.factoryChargeKg,
      }));
    });
  });
  return writeTable(
    importFields,
    lines.map((line) => importFields.map((field) => cell((line as Partial<Record<ImportField, unknown>>)[field]))),
  );
}

function named(prefix: string, fields: Text): Text {
  return Object.fromEntries(
    Object.entries(fields).map(([field, value]) => [prefix + field.charAt(0).toUpperCase() + field.slice(1), value]),
  );
}

const cell = (value: unknown): string =>
  typeof value === "number" ? String(value) : typeof value === "string" ? value : "";
