import type { ImportRow, RowError } from "./judge-rows";

/** What the register holds already, as far as an import must know it. */
export interface Register {
  readonly customers: readonly {
    readonly id: string;
    readonly name: string;
    readonly phone: string;
    readonly email: string;
  }[];
  readonly sites: readonly {
    readonly id: string;
    readonly customerId: string;
    readonly name: string;
    readonly street: string;
  }[];
  readonly units: readonly {
    readonly id: string;
    readonly siteId: string;
    readonly name: string;
    readonly serial: string;
  }[];
}

/** Something a line names: found in the register, or to be created under this key (several lines may share it). */
export type Planned = { readonly matched: string } | { readonly create: string };

export interface PlannedRow {
  readonly row: ImportRow;
  readonly customer: Planned;
  readonly site: Planned | null;
  readonly unit: Planned | null;
}
export interface ImportWarning {
  readonly lineNumber: number;
  readonly code: "serial-elsewhere" | "unit-on-two-lines";
  readonly serial: string;
}
export interface ImportPlan {
  readonly rows: readonly PlannedRow[];
  readonly errors: readonly RowError[];
  readonly warnings: readonly ImportWarning[];
  readonly counts: Readonly<
    Record<"customers" | "sites" | "units", { readonly created: number; readonly matched: number }>
  >;
}

/**
 * What an import would create, and what it finds already there and leaves alone. Nothing that exists is changed.
 *
 * A customer is the same by name (and by phone or e-mail where several have the name), a site by name or street at its
 * customer, a unit by serial, else by name, at its site. Upper and lower case and spaces do not count.
 */
export function planImport(rows: readonly ImportRow[], register: Register): ImportPlan {
  const customers = groupBy(register.customers, ({ name }) => same(name));
  const sites = new Map(
    register.sites.flatMap((site) =>
      [site.name, site.street].filter(Boolean).map((text) => [`${site.customerId}|${same(text)}`, site.id] as const),
    ),
  );
  const units = new Map<string, string>();
  for (const unit of register.units) {
    if (unit.serial) units.set(unitKey(unit.siteId, unit), unit.id);
    units.set(unitKey(unit.siteId, { ...unit, serial: "" }), unit.id);
  }
  const withSerial = new Set(register.units.filter(({ serial }) => serial !== "").map(({ id }) => id));
  const planUnit = (unit: NonNullable<ImportRow["unit"]>, siteKey: string): Planned => {
    const byName = units.get(unitKey(siteKey, { ...unit, serial: "" }));
    const sameName = byName !== undefined && (unit.serial === "" || !withSerial.has(byName)) ? byName : undefined;
    const id = units.get(unitKey(siteKey, unit)) ?? sameName;
    return id !== undefined ? { matched: id } : { create: unitKey(siteKey, unit) };
  };
  const newUnits = new Set<string>();
  const serials = new Set(register.units.map(({ serial }) => same(serial)).filter(Boolean));
  const errors: RowError[] = [];
  const warnings: ImportWarning[] = [];
  const planned: PlannedRow[] = [];

  for (const row of rows) {
    const candidates = customers.get(same(row.customer.name)) ?? [];
    const customer = candidates.length > 1 ? oneOf(candidates, row) : candidates[0];
    if (candidates.length > 1 && !customer) {
      errors.push({ lineNumber: row.lineNumber, field: "customerName", heading: null, message: AMBIGUOUS });
      continue;
    }
    const ofCustomer: Planned = customer ? { matched: customer.id } : { create: same(row.customer.name) };
    const ofSite = row.site && planSite(row.site, keyOf(ofCustomer), sites);
    const ofUnit = row.unit && ofSite && planUnit(row.unit, keyOf(ofSite));
    const serial = row.unit?.serial ?? "";
    if (ofUnit && "create" in ofUnit) {
      if (newUnits.has(ofUnit.create))
        warnings.push({ lineNumber: row.lineNumber, code: "unit-on-two-lines", serial: serial || row.unit!.name });
      else if (serials.has(same(serial)))
        warnings.push({ lineNumber: row.lineNumber, code: "serial-elsewhere", serial });
      newUnits.add(ofUnit.create);
      if (serial) serials.add(same(serial));
    }
    planned.push({ row, customer: ofCustomer, site: ofSite, unit: ofUnit });
  }
  const counts = {
    customers: count(planned.map(({ customer }) => customer)),
    sites: count(planned.map(({ site }) => site)),
    units: count(planned.map(({ unit }) => unit)),
  };
  return { rows: planned, errors, warnings, counts };
}

const AMBIGUOUS = "Several customers have this name. Add their phone or e-mail to the line.";

export function keyOf(planned: Planned): string {
  return "matched" in planned ? planned.matched : `new:${planned.create}`;
}

function oneOf(candidates: Register["customers"], { customer }: ImportRow) {
  const fitting = candidates.filter(
    (each) =>
      (customer.phone !== "" && digits(each.phone) === digits(customer.phone)) ||
      (customer.email !== "" && same(each.email) === same(customer.email)),
  );
  return fitting.length === 1 ? fitting[0] : undefined;
}

function planSite(
  site: NonNullable<ImportRow["site"]>,
  customerKey: string,
  sites: ReadonlyMap<string, string>,
): Planned {
  const id = sites.get(`${customerKey}|${same(site.name)}`) ?? sites.get(`${customerKey}|${same(site.street)}`);
  return id !== undefined ? { matched: id } : { create: `${customerKey}|${same(site.name)}` };
}

function unitKey(siteKey: string, unit: { readonly serial: string; readonly name: string }): string {
  return unit.serial ? `${siteKey}|serial|${same(unit.serial)}` : `${siteKey}|name|${same(unit.name)}`;
}

function count(all: readonly (Planned | null)[]) {
  const keys = new Map(all.filter((each) => each !== null).map((each) => [keyOf(each), each]));
  const created = [...keys.values()].filter((each) => "create" in each).length;
  return { created, matched: keys.size - created };
}

function groupBy<T>(all: readonly T[], keyOfEach: (each: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const each of all) {
    const key = keyOfEach(each);
    const group = groups.get(key);
    if (group) group.push(each);
    else groups.set(key, [each]);
  }
  return groups;
}

const same = (text: string) => text.normalize("NFKC").toLowerCase().replace(/\s+/g, " ").trim();
const digits = (text: string) => text.replace(/\D/g, "");
