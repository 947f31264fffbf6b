import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, resolve } from "node:path";

/** Units have their names there, and no words. */
const UNITS = resolve("app/(tablet)/_tablet/units/quantity-kinds.ts");

/** What is drawn on a technician's tablet: its own files and the shared components they use. The certificate is a paper. */
export function listSaidFiles(): string[] {
  const own = readdirSync("app/(tablet)", { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => resolve("app/(tablet)", name))
    .filter((path) => path !== UNITS);
  const said = new Set(own);
  for (const path of said) for (const shared of componentsOf(path)) said.add(shared);
  return [...said].sort();
}

function componentsOf(path: string): string[] {
  const imports = readFileSync(path, "utf8").matchAll(
    /^(?:import|\} from|export .* from)[^;]*?"((?:@\/components|\.\.?)\/[^"]+)";/gm,
  );
  return [...imports].flatMap(([, from = ""]) => {
    const at = from.startsWith("@/") ? resolve(from.slice(2)) : resolve(dirname(path), from);
    const file = [`${at}.tsx`, `${at}.ts`].find((each) => existsSync(each));
    return file && /\/components\/(?!certificate\/)/.test(file) ? [file] : [];
  });
}
