import "server-only";
import { type LogEntry, massMoves } from "@/lib/hvac/procedure";
import type { JobId } from "@/lib/ids";
import { type BilledMass, type BilledPart, listOrderLines, type OrderLine } from "@/lib/work/order-lines";
import { dayAt } from "@/lib/work/site-time";
import { listEntries } from "./entries";
import type { TenantTx } from "./tenant";
import { findWorkOrder } from "./work-orders";

/** What a work order took, for the bill; null when there is none of that id. */
export async function readOrderLines(
  tx: TenantTx,
  orderId: string,
): Promise<{ number: number; lines: OrderLine[] } | null> {
  const order = await findWorkOrder(tx, orderId);
  if (!order) return null;
  const { timeZone } = order.serviceCall.site;
  const moved = await tx.officeEvent.findMany({
    where: { subject: "visit", what: "moved", subjectId: { in: order.visits.map(({ id }) => id) } },
    select: { subjectId: true, at: true, detail: true },
  });
  const visits = order.visits.map(({ id, people }) => ({
    people: people.map(({ person }) => person.name),
    steps: moved
      .filter(({ subjectId }) => subjectId === id)
      .map(({ at, detail }) => ({ at, to: String((detail as { to?: unknown }).to) })),
  }));
  const parts: BilledPart[] = [];
  const masses: BilledMass[] = [];
  for (const job of order.jobs) {
    const entries = await listEntries(tx, job.id as JobId);
    const jobNumber = Number(job.number);
    const onSite = (at: string) => dayAt(new Date(at), timeZone);
    parts.push(...partsOf(entries).map(({ at, ...part }) => ({ jobNumber, on: onSite(at), ...part })));
    for (const { at, what, refrigerant, massKg, label } of massMoves(entries))
      masses.push({ jobNumber, on: onSite(at), what, refrigerant, massKg, cylinder: label });
  }
  const dayOf = (at: Date) => dayAt(at, timeZone);
  return { number: Number(order.number), lines: listOrderLines({ visits, parts, masses, dayOf }) };
}

/** The parts each repair names, as it stands after its corrections. */
function partsOf(entries: readonly LogEntry[]): { at: string; name: string; serial: string | null }[] {
  const superseded = new Set(entries.flatMap(({ supersedes }) => (supersedes ? [supersedes.entry] : [])));
  return entries.flatMap((entry) =>
    entry.kind === "step-recorded" && entry.body.step === "open_repair" && !superseded.has(entry.id)
      ? entry.body.evidence.parts.map((part) => ({ at: entry.deviceAt, ...part }))
      : [],
  );
}
