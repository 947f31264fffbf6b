/** What a column of an imported file may hold, with the headings it is recognised by. */
export const IMPORT_FIELDS = {
  customerName: ["customer", "customer name", "client", "client name", "account", "account name", "company"],
  customerPhone: ["phone", "customer phone", "telephone", "tel", "phone number", "mobile"],
  customerEmail: ["email", "e mail", "customer email", "email address"],
  customerNote: ["note", "notes", "customer note", "comment", "comments"],
  siteName: ["site", "site name", "location", "location name", "building", "premises"],
  siteStreet: ["street", "address", "street address", "address 1", "address line 1", "site address"],
  siteCity: ["city", "town", "site city"],
  sitePostalCode: ["postal code", "postcode", "zip", "zip code"],
  siteRegion: ["region", "state", "province", "county"],
  siteCountry: ["country"],
  siteTimeZone: ["time zone", "timezone", "tz"],
  siteLatitude: ["latitude", "lat"],
  siteLongitude: ["longitude", "lon", "lng", "long"],
  siteAccessNote: ["access", "access note", "access notes", "how to get in"],
  unitName: ["unit", "unit name", "equipment", "equipment name", "tag", "asset", "asset name", "unit tag"],
  unitMaker: ["maker", "make", "manufacturer", "brand"],
  unitModel: ["model", "model number", "model no"],
  unitSerial: ["serial", "serial number", "serial no", "sn", "s n"],
  unitYearMade: ["year", "year made", "year of manufacture", "built"],
  unitPlace: ["place", "position", "where", "unit location", "roof or room"],
  unitApplianceKind: ["appliance kind", "kind", "use", "appliance"],
  refrigerant: ["refrigerant", "nameplate refrigerant", "refrigerant type", "gas"],
  chargeKg: ["charge kg", "factory charge kg", "refrigerant charge kg"],
  chargeLb: ["charge lb", "charge lbs", "factory charge lb", "factory charge lbs"],
  chargeOz: ["charge oz", "factory charge oz"],
} as const;
export type ImportField = keyof typeof IMPORT_FIELDS;

export const importFields = Object.keys(IMPORT_FIELDS) as ImportField[];

export function isImportField(value: unknown): value is ImportField {
  return typeof value === "string" && Object.hasOwn(IMPORT_FIELDS, value);
}

/** For each column of the file the field it fills, or null for a column left out. */
export type ColumnMapping = readonly (ImportField | null)[];

export type MappingError =
  | { readonly code: "no-customer-column" }
  | { readonly code: "unit-without-site-column" }
  | { readonly code: "field-mapped-twice"; readonly field: ImportField };

/** A first guess from the headings; a field is guessed once, for the first column that names it. */
export function guessMapping(headings: readonly string[]): ColumnMapping {
  const taken = new Set<ImportField>();
  return headings.map((heading) => {
    const plain = heading
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, " ")
      .trim();
    const field = importFields.find((each) => !taken.has(each) && recognises(each, plain)) ?? null;
    if (field) taken.add(field);
    return field;
  });
}

function recognises(field: ImportField, plainHeading: string): boolean {
  const isOurExport = plainHeading === field.toLowerCase();
  return isOurExport || (IMPORT_FIELDS[field] as readonly string[]).includes(plainHeading);
}

/** What keeps this mapping from being used, or null. */
export function judgeMapping(mapping: ColumnMapping): MappingError | null {
  const used = mapping.filter((field) => field !== null);
  const twice = used.find((field, index) => used.indexOf(field) !== index);
  if (twice) return { code: "field-mapped-twice", field: twice };
  if (!used.includes("customerName")) return { code: "no-customer-column" };
  const aboutUnits = used.some(
    (field) => field.startsWith("unit") || field === "refrigerant" || field.startsWith("charge"),
  );
  if (aboutUnits && !used.includes("siteName")) return { code: "unit-without-site-column" };
  return null;
}
