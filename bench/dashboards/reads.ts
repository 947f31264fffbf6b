import { listCallbackGaps, listCauseCosts, tallyQuality } from "@/lib/db/quality";
import { listDecisions } from "@/lib/db/quality-decisions";
import { withTenant } from "@/lib/db/tenant";
import { CompanyId } from "@/lib/ids";
import { addDays } from "@/lib/work/site-time";
import { timeReads } from "../company/time-reads";

// The dashboards' own queries, one transaction each, without a page around them: company, rounds; prints milliseconds by page.
const company = CompanyId.parse(process.argv[2]);
const now = new Date();
const today = now.toISOString().slice(0, 10);
const question = (days: number) => ({
  fromDay: `${addDays(today, -days).slice(0, 7)}-01`,
  toDay: "2100-01-01",
  today,
  windowDays: 90,
  jobKind: null,
});
const proof = (days: number) => () =>
  withTenant(company, async (tx) => {
    await tallyQuality(tx, question(days));
    await listCallbackGaps(tx, question(days));
    await listCauseCosts(tx, question(days));
  });
const reads = {
  year: proof(365),
  all: proof(5000),
  decisions: () => withTenant(company, (tx) => listDecisions(tx, { today, now, weakDays: 30 })),
};

await timeReads(reads, Number(process.argv[3]));
process.exit(0); // the pool would hold the process
