import { refreshDuties } from "@/lib/db/refrigerant/duties";
import { withTenant } from "@/lib/db/tenant";
import { CompanyId } from "@/lib/ids";

// Computes every marked circuit's duties, as pages and the queue do, and prints how long it took.
const company = CompanyId.parse(process.argv[2]);
const at = performance.now();
while ((await withTenant(company, (tx) => refreshDuties(tx))) > 0);
const seconds = (performance.now() - at) / 1000;
const open = await withTenant(company, (tx) => tx.duty.count({ where: { doneOn: null } }));
console.log(JSON.stringify({ seconds, open }));
process.exit(0); // the pool would hold the process
