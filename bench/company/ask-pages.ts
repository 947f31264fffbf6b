import { randomBytes } from "node:crypto";
import { readFileSync } from "node:fs";
import { freePort } from "@/lib/embedded/launch";
import { type ServedApp, serveApp } from "@/scripts/serve-app";
import { mustRun } from "@/scripts/step";
import { type Figure, median } from "../figure";
import { signIn } from "../sign-in";
import { BENCH_PASSWORD } from "./plant-owner";

const ROUNDS = 15;

export interface AskedPage {
  /** The name of the queries behind it in the file of reads. */
  readonly read: string;
  readonly path: string;
  readonly words: string;
  /** Must stand on the page: an error page is fast too. */
  readonly shows: RegExp;
}

/**
 * Each page as its owner is answered by the built app, at the median, beside its queries alone in a process of their own; then the
 * memory of the web process.
 * @param reads a script that takes the company and the rounds and prints milliseconds by read
 */
export async function askPages(of: {
  databaseUrl: string;
  company: string;
  slug: string;
  reads: string;
  pages: readonly AskedPage[];
  atMostMs: number;
  beside: string;
}): Promise<Figure[]> {
  const { databaseUrl, company, slug, pages, atMostMs, beside } = of;
  const run = ["--import", "tsx", "--conditions=react-server", of.reads, company, String(ROUNDS)];
  const printed = await mustRun(process.execPath, run, { env: { DATABASE_URL: databaseUrl } });
  const alone = JSON.parse(printed.trim().split("\n").at(-1)!) as Record<string, number[]>;
  const port = await freePort();
  const publicUrl = `http://localhost:${port}`;
  const secret = randomBytes(32).toString("base64url");
  const app = await serveApp({ mode: "start", host: "127.0.0.1", port, databaseUrl, secret, publicUrl, quiet: true });
  try {
    const cookie = await signIn(publicUrl, `owner@${slug}.example`, BENCH_PASSWORD);
    const figures: Figure[] = [];
    for (const page of pages) {
      const took = await ask(`${publicUrl}/${slug}/${page.path}`, cookie, page.shows);
      figures.push({
        name: `${page.words}, ${beside}, median`,
        value: median(took),
        unit: "ms",
        atMost: atMostMs,
        beside: { name: "its queries alone", value: median(alone[page.read]!) },
      });
    }
    figures.push({ name: `memory of the web process, ${beside}`, value: residentMb(app), unit: "MB" });
    return figures;
  } finally {
    await app.stop();
  }
}

async function ask(url: string, cookie: string, shows: RegExp): Promise<number[]> {
  const took: number[] = [];
  for (let round = 0; round < ROUNDS + 3; round += 1) {
    const at = performance.now();
    const answer = await fetch(url, { headers: { cookie } });
    const body = await answer.text();
    if (answer.status !== 200 || !shows.test(body)) throw new Error(`${url} answered ${answer.status}`);
    if (round >= 3) took.push(performance.now() - at);
  }
  return took;
}

function residentMb({ child }: ServedApp): number {
  return Number(/VmRSS:\s+(\d+)/.exec(readFileSync(`/proc/${child.pid}/status`, "utf8"))![1]) / 1024;
}
