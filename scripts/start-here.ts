import { once } from "node:events";
import { join } from "node:path";
import { type OpenDatabase, openDatabase } from "@/lib/embedded/database";
import { keptSecret } from "@/lib/embedded/secrets";
import { commandEnv } from "@/lib/env";
import { migrateDatabase } from "@/prisma/migrate";
import { buildApp, generateClient } from "./build-app";
import { hasNoCompany, seedDemo, signInWords } from "./seed-demo";
import { requirePort, serveApp } from "./serve-app";
import { exitOnFailure, StepFailure, seconds, step } from "./step";

/** Everything from installed packages to a served app: client, build, database, migrations, demo, server; until a signal. */
export function start({ development }: { readonly development: boolean }): Promise<void> {
  return exitOnFailure(async () => {
    const startedAt = performance.now();
    console.log("Dryhold is starting.");
    const env = commandEnv();
    const port = await requirePort(env.HOST, env.PORT);
    if (development) await generateClient();
    else await buildApp();

    const projectFolder = process.cwd();
    const database = await step("Opening the database", () => openDatabase({ projectFolder, ...env }), describe);
    try {
      await prepare(database);
      const publicUrl = env.NEXTAUTH_URL ?? `http://localhost:${port}`;
      const secretFolder = database.embedded?.dataFolder ?? join(projectFolder, ".dryhold");
      const app = await step("Starting the app", () =>
        serveApp({
          mode: development ? "dev" : "start",
          host: env.HOST,
          port,
          databaseUrl: database.databaseUrl,
          secret: env.NEXTAUTH_SECRET ?? keptSecret(secretFolder, "session"),
          publicUrl,
          quiet: !development,
        }),
      );
      console.log(
        `\nReady after ${seconds(startedAt)}: open ${publicUrl}\n\n${await signInWords(database)}\n\nStop with Ctrl-C.`,
      );
      const signal = await Promise.race([untilSignal(), once(app.child, "exit").then(() => null)]);
      await app.stop();
      if (!signal) throw new StepFailure("The app ended by itself; see above.");
    } finally {
      await database.release();
    }
  });
}

function describe({ embedded }: OpenDatabase): string {
  if (!embedded) return "as DATABASE_URL says";
  return `${embedded.firstStart ? "made" : embedded.joined ? "joined" : "started"} in ${embedded.dataFolder}`;
}

async function prepare(database: OpenDatabase) {
  await step(
    "Bringing the database up to date",
    () => migrateDatabase(database),
    (applied) => (applied.length === 0 ? "nothing to do" : `${applied.length} applied`),
  );
  // The demo's passwords stand in the README, so it is never put into a database that others may reach.
  const { DRYHOLD_DEMO: asked, HOST: host } = commandEnv();
  const alone = database.embedded !== null && ["127.0.0.1", "::1", "localhost"].includes(host);
  const wanted = asked === "1" || (alone && asked !== "0");
  if (wanted && (await hasNoCompany(database)))
    await step("Adding the invented demo company and two invented years of it", () =>
      seedDemo(database, { history: true }),
    );
}

function untilSignal(): Promise<string> {
  return new Promise((resolve) => {
    for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"] as const) process.once(signal, () => resolve(signal));
  });
}
