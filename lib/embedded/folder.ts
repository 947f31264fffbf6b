import { createHash } from "node:crypto";
import { chmodSync, mkdirSync } from "node:fs";
import { join, resolve } from "node:path";
import { type Account, canEnter } from "./account";
import { EmbeddedFailure } from "./failure";

/**
 * Where this installation keeps its data: the folder asked for, else `.dryhold` in the project, else, when root's
 * stand-in account cannot enter the project, a folder under /var/lib named after the project's path.
 */
export function prepareDataFolder(account: Account | null, projectFolder: string, asked: string | undefined): string {
  if (asked) {
    const folder = make(resolve(asked), account);
    if (canEnter(account, folder)) return folder;
    throw new EmbeddedFailure(
      `The account "${account?.name}", which runs PostgreSQL in root's place, cannot enter ${folder}. ` +
        "Choose a DRYHOLD_DATA folder outside /root and other private folders, for example /var/lib/dryhold.",
    );
  }
  if (canEnter(account, projectFolder)) return make(join(projectFolder, ".dryhold"), account);
  const name = createHash("sha256").update(projectFolder).digest("hex").slice(0, 12);
  return make(join("/var/lib/dryhold", name), account);
}

/** As root the folder is passable for the server's account, while what lies in it has its own modes. */
function make(folder: string, account: Account | null): string {
  mkdirSync(folder, { recursive: true });
  chmodSync(folder, account ? 0o711 : 0o700);
  return folder;
}
