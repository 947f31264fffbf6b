type Plain = string | number | boolean | null;

/** What differs between a row and its new fields, as [before, after] by name: the detail of an office event. */
export function changes(before: Readonly<Record<string, unknown>>, after: Readonly<Record<string, unknown>>) {
  const changed: Record<string, [Plain, Plain]> = {};
  for (const [field, value] of Object.entries(after)) {
    const [from, to] = [plain(before[field]), plain(value)];
    if (from !== to) changed[field] = [from, to];
  }
  return changed;
}

function plain(value: unknown): Plain {
  if (value === null || value === undefined) return null;
  if (typeof value === "string" || typeof value === "number" || typeof value === "boolean") return value;
  return Array.isArray(value) ? value.join(", ") : String(value);
}
