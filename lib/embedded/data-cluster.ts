import { execFile } from "node:child_process";
import { chownSync, existsSync, mkdirSync, readdirSync, renameSync, rmdirSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { promisify } from "node:util";
import { type Account, serverProcess } from "./account";
import { EmbeddedFailure } from "./failure";

const run = promisify(execFile);

/**
 * Makes the database files with `initdb` unless they exist. They are made beside their place and moved there when
 * whole, so an interrupted first start leaves nothing that looks finished.
 */
export async function prepareCluster(request: {
  readonly initdb: string;
  readonly account: Account | null;
  readonly clusterFolder: string;
  readonly superuserPassword: string;
}): Promise<"made" | "found"> {
  const { clusterFolder, account } = request;
  if (existsSync(join(clusterFolder, "PG_VERSION"))) return "found";
  setAside(clusterFolder);
  const unfinished = `${clusterFolder}.unfinished`;
  rmSync(unfinished, { recursive: true, force: true });
  mkdirSync(unfinished, { mode: 0o700 });
  const passwordFile = `${clusterFolder}.password`;
  writeFileSync(passwordFile, request.superuserPassword, { mode: 0o600 });
  if (account) {
    chownSync(unfinished, account.uid, account.gid);
    chownSync(passwordFile, account.uid, account.gid);
  }
  const options = ["-U", "postgres", "--auth=scram-sha-256", `--pwfile=${passwordFile}`, "--encoding=UTF8"];
  try {
    await run(request.initdb, ["-D", unfinished, ...options, "--locale=C"], serverProcess(account, unfinished));
  } catch (error) {
    const said = (error as { stderr?: string }).stderr?.trim();
    throw new EmbeddedFailure(`The database files could not be made in ${unfinished}:\n${said ?? String(error)}`);
  } finally {
    rmSync(passwordFile, { force: true });
  }
  renameSync(unfinished, clusterFolder);
  return "made";
}

/** A folder in the database's place that holds no database: removed when empty, kept under another name when not. */
function setAside(clusterFolder: string) {
  if (!existsSync(clusterFolder)) return;
  if (readdirSync(clusterFolder).length === 0) rmdirSync(clusterFolder);
  else renameSync(clusterFolder, `${clusterFolder}.half-made-${Date.now()}`);
}
