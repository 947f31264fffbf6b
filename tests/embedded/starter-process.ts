import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { fileURLToPath } from "node:url";

export interface Starter {
  readonly child: ChildProcess;
  readonly pid: number;
  readonly port: number;
  readonly joined: boolean;
  readonly firstStart: boolean;
  leave(): Promise<void>;
}

const projectFolder = fileURLToPath(new URL("../..", import.meta.url));

/** Starts another process that uses the database in the folder, and waits until it has it. */
export async function runStarter(dataFolder: string, as: { uid?: number; gid?: number } = {}): Promise<Starter> {
  const program = fileURLToPath(new URL("starter.ts", import.meta.url));
  const child = spawn(process.execPath, ["--import", "tsx", program, dataFolder], { cwd: projectFolder, ...as });
  let said = "";
  let complained = "";
  child.stderr.on("data", (chunk) => (complained += chunk));
  await new Promise<void>((resolve, reject) => {
    child.stdout.on("data", (chunk) => {
      said += chunk;
      if (said.includes("\n")) resolve();
    });
    child.once("exit", () => reject(new Error(complained)));
  });
  const leave = async () => {
    child.stdin.end();
    if (child.exitCode === null) await once(child, "exit");
  };
  return { child, leave, ...JSON.parse(said) };
}
