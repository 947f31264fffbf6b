import { readdirSync } from "node:fs";

/** Addresses of all pages and handlers that stand under a company, from the source: a new one is asked for too. */
export function addresses(kind: "page.tsx" | "route.ts"): string[] {
  return readdirSync("app", { recursive: true, encoding: "utf8" })
    .map((file) => `/${file.replaceAll("\\", "/")}`)
    .filter((file) => file.endsWith(`/${kind}`))
    .map((file) => file.replace(`/${kind}`, ""))
    .map((path) => path.replaceAll(/\/\([^)]+\)/g, "").replace("/[[...place]]", ""))
    .filter((path) => path.includes("[company]"))
    .sort();
}

/** The address with a company and an id for each thing it names. */
export function fill(path: string, company: string, idOf: (name: string) => string): string {
  return path.replaceAll(/\[(\w+)\]/g, (_all, name: string) => (name === "company" ? company : idOf(name)));
}

/** Ids by name, complaining of a name nobody has an id for. */
export const idsByName = (ids: Readonly<Record<string, string>>) => (name: string) => {
  const id = ids[name];
  if (!id) throw new Error(`no id is known for [${name}]: add it to idsOf`);
  return id;
};
