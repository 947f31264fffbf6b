import "server-only";
import type { Board, BoardVisit } from "@/lib/work/board/board";
import { type DayView, makeBoard, type ShownVisit } from "@/lib/work/board/make-board";
import { listPlaces } from "@/lib/work/day/day-places";
import { makeDayProblem } from "@/lib/work/day/day-problem";
import type { VisitRecord } from "@/lib/work/day/day-records";
import { placeOf } from "@/lib/work/day/planning-rules";
import { dateWords } from "@/lib/work/site-time";
import { fromColumn } from "../calendar-date";
import { readDay } from "../dispatch/read-day";
import type { TenantTx } from "../tenant";

/** Minutes a call is given until somebody says otherwise, as on the call's form. */
const CALL_MINUTES = 120;
const MOST_CALLS = 100;

export interface BoardCompany {
  readonly timeZone: string;
  readonly ruleSet: "us" | "eu";
}

/** The board of these days: everybody who can be sent, every visit, and the calls without a work order. */
export async function readBoard(
  tx: TenantTx,
  days: readonly string[],
  company: BoardCompany,
  now: Date,
): Promise<Board> {
  const views: DayView[] = [];
  for (const day of days) {
    const records = await readDay(tx, day, company);
    // the board estimates the few ways it shows; no table of all of them
    views.push({ records, problem: makeDayProblem(records, listPlaces(records), []) });
  }
  const ids = [...new Set(views.flatMap(({ records }) => records.visits.map(({ id }) => id)))];
  return makeBoard(views, await listShown(tx, ids), await listCalls(tx), now);
}

async function listShown(tx: TenantTx, ids: readonly string[]): Promise<ReadonlyMap<string, ShownVisit>> {
  const rows = await tx.$queryRaw<(ShownVisit & { id: string })[]>`
    select v.id, o.id as "orderId", o.number::int as "orderNumber", c.number::int as "callNumber",
           k.name as customer, s.city, c.symptom
    from visit v
    join work_order o on o.tenant_id = v.tenant_id and o.id = v.work_order_id
    join service_call c on c.tenant_id = o.tenant_id and c.id = o.service_call_id
    join customer k on k.tenant_id = c.tenant_id and k.id = c.customer_id
    join site s on s.tenant_id = c.tenant_id and s.id = c.site_id
    where v.id = any (${ids}::uuid[])`;
  return new Map(rows.map(({ id, ...shown }) => [id, shown]));
}

function findNewCalls(tx: TenantTx) {
  return tx.serviceCall.findMany({
    where: { state: "new" },
    orderBy: { takenAt: "asc" },
    take: MOST_CALLS,
    select: {
      id: true,
      number: true,
      symptom: true,
      urgency: true,
      takenAt: true,
      dueFrom: true,
      dueBy: true,
      partAwaited: true,
      partCameAt: true,
      customer: { select: { name: true } },
      site: { select: { id: true, city: true, latitude: true, longitude: true } },
    },
  });
}

/**
 * The calls without a work order as visits the planner can place that day: not those whose part is awaited or whose time
 * is later, but for the one asked about by name.
 */
export async function listCallsToPlace(
  tx: TenantTx,
  asked: { readonly day: string; readonly id?: string },
): Promise<readonly VisitRecord[]> {
  const calls = await findNewCalls(tx);
  const ready = calls.filter(
    ({ id, dueFrom, partAwaited, partCameAt }) =>
      id === asked.id || ((partAwaited === "" || partCameAt !== null) && (fromColumn(dueFrom) ?? "") <= asked.day),
  );
  return ready.map((call) => ({
    id: call.id,
    version: 0,
    label: `Call ${call.number}, ${call.customer.name}`,
    state: "planned",
    window: null,
    plannedStart: null,
    plannedMinutes: CALL_MINUTES,
    people: [],
    earlierPeople: [],
    siteId: call.site.id,
    at: placeOf(call.site.latitude, call.site.longitude),
    urgency: call.urgency,
    calledAt: call.takenAt,
    circuits: [],
    parts: {},
    peopleNeeded: 1,
    pinnedTo: null,
    isStartPinned: false,
    preferredPerson: null,
  }));
}

async function listCalls(tx: TenantTx): Promise<readonly BoardVisit[]> {
  return (await findNewCalls(tx)).map((call) => ({
    kind: "call",
    id: call.id,
    version: 0,
    state: "planned",
    orderId: null,
    label: `Call ${call.number}`,
    callNumber: Number(call.number),
    customer: call.customer.name,
    city: call.site.city,
    symptom: call.symptom,
    urgency: call.urgency,
    at: placeOf(call.site.latitude, call.site.longitude),
    startMs: null,
    minutes: CALL_MINUTES,
    people: [],
    window: null,
    demands: [],
    parts: {},
    notes: callNotes(call),
    dueByMs: call.dueBy?.getTime() ?? null,
  }));
}

/** What a dispatcher has to know of a call that came by itself. */
function callNotes(call: Awaited<ReturnType<typeof findNewCalls>>[number]): string[] {
  const { dueFrom, dueBy, partAwaited, partCameAt } = call;
  const [from, by] = [fromColumn(dueFrom), fromColumn(dueBy)];
  return [
    ...(by ? [from ? `${dateWords(from)} to ${dateWords(by)}` : `by ${dateWords(by)}`] : []),
    ...(partAwaited ? [partCameAt ? `${partAwaited} has come` : `waits for ${partAwaited}`] : []),
  ];
}
