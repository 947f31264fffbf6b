import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { createConnection, createServer } from "node:net";
import { setTimeout as delay } from "node:timers/promises";
import { StepFailure } from "./step";

const READY_WITHIN_MS = 60_000;

export interface ServeRequest {
  readonly mode: "start" | "dev";
  readonly host: string;
  readonly port: number;
  readonly databaseUrl: string;
  readonly secret: string;
  readonly publicUrl: string;
  readonly quiet?: boolean;
}

export interface ServedApp {
  readonly child: ChildProcess;
  stop(): Promise<void>;
}

/** Runs Next.js in a process of its own until it answers. The migrator's URL is kept from it. */
export async function serveApp(request: ServeRequest): Promise<ServedApp> {
  const { MIGRATOR_URL: _kept, ...env } = process.env;
  const options = ["-p", String(request.port), "-H", request.host];
  const warnings = request.quiet ? ["--disable-warning=DeprecationWarning"] : []; // what a library will change is no news to who runs it
  const child = spawn(process.execPath, [...warnings, "node_modules/next/dist/bin/next", request.mode, ...options], {
    env: {
      ...env,
      NODE_ENV: request.mode === "start" ? "production" : "development",
      NEXT_TELEMETRY_DISABLED: "1",
      DATABASE_URL: request.databaseUrl,
      NEXTAUTH_SECRET: request.secret,
      NEXTAUTH_URL: request.publicUrl,
    },
    stdio: ["ignore", request.quiet ? "ignore" : "inherit", "inherit"],
  });
  const giveUpAt = Date.now() + READY_WITHIN_MS;
  while (!(await accepts(request.host, request.port))) {
    if (child.exitCode !== null || Date.now() > giveUpAt) throw new StepFailure("The app did not start; see above.");
    await delay(30);
  }
  return {
    child,
    async stop() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      child.kill("SIGTERM");
      await once(child, "exit");
    },
  };
}

/** The port asked for, which must be free; else 3000 or the next free one above it. */
export async function requirePort(host: string, asked: number | undefined): Promise<number> {
  if (asked !== undefined) {
    if (await isFree(host, asked)) return asked;
    throw new StepFailure(`Port ${asked} is taken; choose another with PORT.`);
  }
  for (let port = 3000; port < 3100; port++) if (await isFree(host, port)) return port;
  throw new StepFailure("No port from 3000 to 3099 is free; choose one with PORT.");
}

function isFree(host: string, port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const probe = createServer().once("error", () => resolve(false));
    probe.listen(port, host, () => probe.close(() => resolve(true)));
  });
}

function accepts(host: string, port: number): Promise<boolean> {
  return new Promise((resolve) => {
    const socket = createConnection({ host: host === "0.0.0.0" ? "127.0.0.1" : host, port });
    socket.once("connect", () => {
      socket.destroy();
      resolve(true);
    });
    socket.once("error", () => resolve(false));
  });
}
