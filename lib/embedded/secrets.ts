import { randomBytes } from "node:crypto";
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";

/** A secret of this installation, made on first use and kept readable by its owner alone. Safe to put into a URL. */
export function keptSecret(folder: string, name: string): string {
  const file = join(folder, "secrets", name);
  mkdirSync(join(folder, "secrets"), { recursive: true, mode: 0o700 });
  try {
    const made = randomBytes(32).toString("base64url");
    writeFileSync(file, made, { flag: "wx", mode: 0o600 });
    return made;
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code !== "EEXIST") throw error;
    return readFileSync(file, "utf8").trim();
  }
}
