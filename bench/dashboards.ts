import { randomBytes } from "node:crypto";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "pg";
import { freePort } from "@/lib/embedded/launch";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import { migrateDatabase } from "@/prisma/migrate";
import { buildApp } from "@/scripts/build-app";
import { type ServedApp, serveApp } from "@/scripts/serve-app";
import { mustRun } from "@/scripts/step";
import { BENCH_PASSWORD, LARGE, plantCompany, plantSmallUpTo } from "./dashboards/plant";
import { type Figure, median, printWhenStarted } from "./figure";
import { signIn } from "./sign-in";

const COMPANIES = [1, 100, 1000];
const ROUNDS = 15;
const SERVER_MS = 300;
const pages = {
  year: { path: "quality/proof", words: "owner's dashboard, a year" },
  all: { path: "quality/proof?span=all", words: "owner's dashboard, all five years" },
  decisions: { path: "quality/decisions", words: "supervisor's dashboard" },
} as const;
type PageName = keyof typeof pages;

/** The dashboards of a company with 250 000 jobs as more and more companies stand beside it, next to their queries alone. */
export async function benchDashboards(): Promise<readonly Figure[]> {
  await buildApp();
  const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-bench-"));
  const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder, settings: { fsync: "off" } });
  try {
    const urls = await prepareDatabase(server);
    await migrateDatabase(urls);
    const client = new Client({ connectionString: server.superuserUrl("dryhold") });
    await client.connect();
    // What triggers keep is planted with the rest; 250 000 rows one by one, each key looked up, would take the bench's time.
    await client.query("set session_replication_role = replica");
    const company = await plantCompany(client, LARGE.slug, LARGE, true);
    const figures: Figure[] = [];
    for (const count of COMPANIES) {
      await plantSmallUpTo(client, count);
      await client.query("vacuum analyze");
      figures.push(...(await measure(urls.databaseUrl, company, count)));
    }
    await client.end();
    return figures;
  } finally {
    await server.release();
    rmSync(dataFolder, { recursive: true, force: true });
  }
}

async function measure(databaseUrl: string, company: string, count: number): Promise<Figure[]> {
  const run = ["--import", "tsx", "--conditions=react-server", "bench/dashboards/reads.ts", company, String(ROUNDS)];
  const printed = await mustRun(process.execPath, run, { env: { DATABASE_URL: databaseUrl } });
  const alone = JSON.parse(printed.trim().split("\n").at(-1)!) as Record<PageName, number[]>;
  const port = await freePort();
  const publicUrl = `http://localhost:${port}`;
  const secret = randomBytes(32).toString("base64url");
  const app = await serveApp({ mode: "start", host: "127.0.0.1", port, databaseUrl, secret, publicUrl, quiet: true });
  try {
    const cookie = await signIn(publicUrl, `owner@${LARGE.slug}.example`, BENCH_PASSWORD);
    const figures: Figure[] = [];
    for (const [name, { path, words }] of Object.entries(pages)) {
      const took = await ask(`${publicUrl}/${LARGE.slug}/${path}`, cookie);
      figures.push({
        name: `${words}, ${count} ${count === 1 ? "company" : "companies"}, median`,
        value: median(took),
        unit: "ms",
        atMost: SERVER_MS,
        beside: { name: "its queries alone", value: median(alone[name as PageName]) },
      });
    }
    figures.push({ name: `memory of the web process, ${count} companies`, value: residentMb(app), unit: "MB" });
    return figures;
  } finally {
    await app.stop();
  }
}

async function ask(url: string, cookie: string): Promise<number[]> {
  const took: number[] = [];
  for (let round = 0; round < ROUNDS + 3; round += 1) {
    const at = performance.now();
    const answer = await fetch(url, { headers: { cookie } });
    const body = await answer.text();
    if (answer.status !== 200 || !/What callbacks cost|Overrides asked for/.test(body))
      throw new Error(`${url} answered ${answer.status}`);
    if (round >= 3) took.push(performance.now() - at);
  }
  return took;
}

function residentMb({ child }: ServedApp): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8"))![1]) / 1024;
}

await printWhenStarted(import.meta.url, benchDashboards);
