import { listPostings, readExceptions, readFlows, readHoldings } from "@/lib/db/refrigerant/books";
import { readCylinders } from "@/lib/db/refrigerant/cylinders-in-books";
import { leakRateMethod, listDuties, readStandings, refreshDuties } from "@/lib/db/refrigerant/duties";
import { listLawEvents } from "@/lib/db/refrigerant/law-events";
import { type TenantTx, withTenant } from "@/lib/db/tenant";
import { CompanyId } from "@/lib/ids";
import { timeReads } from "../company/time-reads";

// The refrigerant pages' own queries, one transaction each, without a page around them: company, rounds; prints milliseconds by page.
const company = CompanyId.parse(process.argv[2]);
const [circuit, cylinder] = await withTenant(company, async (tx) => [
  (await tx.circuit.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } })).id,
  (await tx.cylinder.findFirstOrThrow({ select: { id: true }, orderBy: { id: "asc" } })).id,
]);
const ever = { from: "2000-01-01", to: "2100-01-01" };
const inTenant = (read: (tx: TenantTx) => Promise<unknown>) => () => withTenant(company, read);
const due = (show: "open" | "late" | "done") =>
  inTenant(async (tx) => {
    await refreshDuties(tx);
    await listDuties(tx, { show, code: null }, { take: 101, skip: 0 });
    await leakRateMethod(tx);
  });
const postings = (placeId: string | null, skip = 0) =>
  inTenant((tx) => listPostings(tx, { placeId, ...ever }, { take: 101, skip }));

await timeReads(
  {
    open: due("open"),
    late: due("late"),
    done: due("done"),
    mass: inTenant(async (tx) => {
      await readExceptions(tx);
      await readFlows(tx, `${new Date().getFullYear()}-01-01`, "2100-01-01");
      await readHoldings(tx);
    }),
    cylinders: inTenant((tx) => readCylinders(tx)),
    postings: postings(null),
    circuitPostings: postings(circuit!),
    cylinderPostings: postings(cylinder!),
    circuit: inTenant(async (tx) => {
      await readStandings(tx, [circuit!]);
      await listLawEvents(tx, circuit!);
    }),
  },
  Number(process.argv[3]),
);
process.exit(0); // the pool would hold the process
