import "server-only";
import { clockAt } from "@/lib/work/site-time";
import type { TenantTx } from "../tenant";
import { changeDetail } from "./plan-steps";

const whatWords: Readonly<Record<string, string>> = {
  placed: "placed it",
  "taken-off": "took it off the board",
  lengthened: "changed how long it takes",
  proposed: "accepted a plan for it",
  undid: "took a change of it back",
  replanned: "planned it anew",
  planned: "planned it",
};

/** Who changed a visit last and to what, as a sentence for whoever was second. */
export async function describeLastChange(tx: TenantTx, visitId: string, timeZone: string): Promise<string> {
  const visit = await tx.visit.findFirst({
    where: { id: visitId },
    select: {
      state: true,
      plannedStart: true,
      people: { select: { person: { select: { name: true } } } },
      workOrder: { select: { number: true } },
    },
  });
  if (visit === null) return "It is not there any more.";
  const [event] = await tx.officeEvent.findMany({
    where: { subject: "visit", subjectId: visitId },
    orderBy: { at: "desc" },
    take: 1,
    select: { at: true, what: true, person: { select: { name: true } } },
  });
  const who = event
    ? `${event.person.name} ${whatWords[event.what] ?? "changed it"} at ${clockAt(event.at, timeZone)}`
    : "It was changed meanwhile";
  const people = visit.people.map(({ person }) => person.name).join(" and ");
  const now =
    visit.state !== "planned"
      ? `it is ${visit.state.replaceAll("-", " ")}`
      : visit.plannedStart
        ? `it starts at ${clockAt(visit.plannedStart, timeZone)} with ${people || "nobody"}`
        : "it has no place";
  return `Work order ${visit.workOrder.number}: ${who}; now ${now}.`;
}

/** The latest changes of the board that can be taken back, newest first. */
export async function listChanges(tx: TenantTx, visitId: string) {
  const events = await tx.officeEvent.findMany({
    where: { subject: "visit", subjectId: visitId },
    orderBy: { at: "desc" },
    take: 12,
    select: { id: true, at: true, what: true, detail: true, person: { select: { name: true } } },
  });
  return events.map(({ detail, ...event }) => {
    const kept = changeDetail.safeParse(detail);
    return { ...event, kept: kept.success ? kept.data : null };
  });
}
