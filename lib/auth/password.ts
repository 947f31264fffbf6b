import "server-only";
import { hash, verify } from "@node-rs/argon2";

// The library's default is argon2id. OWASP password storage cheat sheet: 19 MiB, 2 passes, 1 lane (from memory of its minimum).
const cost = { memoryCost: 19 * 1024, timeCost: 2, parallelism: 1 };

let nobody: Promise<string> | undefined;

export function hashPassword(password: string): Promise<string> {
  return hash(password.normalize("NFKC"), cost);
}

/** Takes as long for an account that does not exist as for one that does. */
export async function passwordFits(password: string, passwordHash: string | null): Promise<boolean> {
  nobody ??= hashPassword("nobody has this password");
  const fits = await verify(passwordHash ?? (await nobody), password.normalize("NFKC"));
  return fits && passwordHash !== null;
}

/** What is wrong with a new password, or null. Length is what counts; NIST SP 800-63B (from memory): 8 at least, no composition rules. */
export function weaknessOf(password: string): "too-short" | "too-long" | "too-common" | null {
  if ([...password].length < 10) return "too-short";
  if (password.length > 200) return "too-long";
  if (new Set(password.toLowerCase()).size < 4 || /^(password|passwort|qwerty|12345678)/i.test(password))
    return "too-common";
  return null;
}
