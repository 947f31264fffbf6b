import { buildApp } from "@/scripts/build-app";
import { mustRun } from "@/scripts/step";
import { type AskedPage, askPages } from "./company/ask-pages";
import { withBenchDatabase } from "./company/with-database";
import { type Figure, printWhenStarted } from "./figure";
import { BOOKS, plantBooks } from "./ledger/plant";

const SERVER_MS = 300;

/** The refrigerant pages of a company with 20 000 appliances and 2 million postings, next to their queries alone. */
export async function benchLedger(): Promise<readonly Figure[]> {
  await buildApp();
  return withBenchDatabase(async (client, databaseUrl) => {
    const company = await plantBooks(client);
    const { rows } = await client.query<{ postings: string; circuit: string; cylinder: string }>(
      `select (select count(*) from posting) as postings, (select id from circuit order by id limit 1) as circuit,
              (select id from cylinder order by id limit 1) as cylinder`,
    );
    const { postings, circuit, cylinder } = rows[0]!;
    const computing = ["--import", "tsx", "--conditions=react-server", "bench/ledger/compute-duties.ts", company];
    const computed = JSON.parse(await mustRun(process.execPath, computing, { env: { DATABASE_URL: databaseUrl } }));
    await client.query("update duty set done_on = due_by where hashtext(circuit_id::text) % 5 = 0"); // some were worked off
    const pages: readonly AskedPage[] = [
      { read: "open", path: "refrigerant/due", words: "what is due, open", shows: /by the site/ },
      { read: "late", path: "refrigerant/due?show=late", words: "what is due, late", shows: /by the site/ },
      { read: "done", path: "refrigerant/due?show=done", words: "what is due, done", shows: /by the site/ },
      { read: "mass", path: "refrigerant", words: "where it went", shows: /What flowed/ },
      { read: "cylinders", path: "refrigerant/cylinders", words: "400 cylinders", shows: /By the books/ },
      { read: "postings", path: "refrigerant/postings", words: "the newest postings", shows: /postings, the newest/ },
      {
        read: "circuitPostings",
        path: `refrigerant/postings?place=${circuit}`,
        words: "the postings of a circuit",
        shows: /postings, the newest/,
      },
      {
        read: "cylinderPostings",
        path: `refrigerant/postings?place=${cylinder}`,
        words: "the postings of a cylinder",
        shows: /postings, the newest/,
      },
      {
        read: "circuit",
        path: `refrigerant/circuits/${circuit}`,
        words: "a circuit and the law",
        shows: /Leak rate at each addition/,
      },
    ];
    const beside = `${BOOKS.appliances} appliances, ${postings} postings`;
    const asked = { databaseUrl, company, slug: BOOKS.slug, pages, atMostMs: SERVER_MS, beside };
    return [
      { name: `duties of ${BOOKS.appliances} circuits computed anew`, value: computed.seconds, unit: "s" },
      { name: "open duties", value: computed.open, unit: "duties" },
      ...(await askPages({ ...asked, reads: "bench/ledger/reads.ts" })),
    ];
  });
}

await printWhenStarted(import.meta.url, benchLedger);
