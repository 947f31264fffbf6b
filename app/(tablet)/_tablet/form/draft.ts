/** A record while it is typed: the evidence's own shape, with holes where nothing is answered yet. */
export type Draft = Readonly<Record<string, unknown>>;

/** The value at a path like "gauge.location" or "joints.2.result". */
export function valueAt(draft: unknown, path: string): unknown {
  return path.split(".").reduce<unknown>((at, part) => {
    return at !== null && typeof at === "object" ? (at as Record<string, unknown>)[part] : undefined;
  }, draft);
}

/** A copy with the value at the path set; objects and lists on the way are kept what they are. */
export function withValue(draft: Draft, path: string, value: unknown): Draft {
  const [part = "", ...rest] = path.split(".");
  const next = rest.length === 0 ? value : setInside((draft as Record<string, unknown>)[part], rest, value);
  return { ...draft, [part]: next };
}

function setInside(target: unknown, [part = "", ...rest]: string[], value: unknown): unknown {
  const next = (inner: unknown) => (rest.length === 0 ? value : setInside(inner, rest, value));
  if (Array.isArray(target)) return target.map((item, index) => (index === Number(part) ? next(item) : item));
  const fields = (target ?? {}) as Record<string, unknown>;
  return { ...fields, [part]: next(fields[part]) };
}

/** The draft without what only the screen needs (names with a leading underscore, like a running clock's start) and without what was taken back. */
export function evidenceOf(draft: Draft): Draft {
  return Object.fromEntries(
    Object.entries(draft).filter(([name, value]) => !name.startsWith("_") && value !== undefined),
  );
}
