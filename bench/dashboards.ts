import { buildApp } from "@/scripts/build-app";
import { type AskedPage, askPages } from "./company/ask-pages";
import { withBenchDatabase } from "./company/with-database";
import { LARGE, plantCompany, plantSmallUpTo } from "./dashboards/plant";
import { type Figure, printWhenStarted } from "./figure";

const COMPANIES = [1, 100, 1000];
const SERVER_MS = 300;
const cost = /What callbacks cost/;
const pages: readonly AskedPage[] = [
  { read: "year", path: "quality/proof", words: "owner's dashboard, a year", shows: cost },
  { read: "all", path: "quality/proof?span=all", words: "owner's dashboard, all five years", shows: cost },
  { read: "decisions", path: "quality/decisions", words: "supervisor's dashboard", shows: /Overrides asked for/ },
];

/** The dashboards of a company with 250 000 jobs as more and more companies stand beside it, next to their queries alone. */
export async function benchDashboards(): Promise<readonly Figure[]> {
  await buildApp();
  return withBenchDatabase(async (client, databaseUrl) => {
    const company = await plantCompany(client, LARGE.slug, LARGE, true);
    const figures: Figure[] = [];
    for (const count of COMPANIES) {
      await plantSmallUpTo(client, count);
      await client.query("vacuum analyze");
      const beside = `${count} ${count === 1 ? "company" : "companies"}`;
      const asked = { databaseUrl, company, slug: LARGE.slug, pages, atMostMs: SERVER_MS, beside };
      figures.push(...(await askPages({ ...asked, reads: "bench/dashboards/reads.ts" })));
    }
    return figures;
  });
}

await printWhenStarted(import.meta.url, benchDashboards);
