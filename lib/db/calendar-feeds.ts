import "server-only";
import { v7 as uuidv7 } from "uuid";
import type { FeedVisit } from "@/lib/calendar/feed";
import type { PersonId } from "@/lib/ids";
import { recordOfficeEvent } from "./office-events";
import type { TenantTx } from "./tenant";

/** The id of the person's calendar address that holds; null when there is none. */
export async function calendarFeedOf(tx: TenantTx, person: PersonId): Promise<string | null> {
  const [row] = await tx.$queryRaw<{ id: string | null }[]>`select gate.calendar_feed_of(${person}::uuid) as id`;
  return row!.id;
}

/** Makes the person's calendar address, with its event; one that holds already stays. */
export async function makeCalendarFeed(tx: TenantTx, person: PersonId, hashOf: (id: string) => Uint8Array) {
  const id = uuidv7();
  const [row] = await tx.$queryRaw<{ id: string | null }[]>`
    select gate.make_calendar_feed(${id}::uuid, ${Buffer.from(hashOf(id))}, ${person}::uuid) as id`;
  if (row!.id === id)
    await recordOfficeEvent(tx, person, { what: "calendar-made", subject: "member", subjectId: person });
  return row!.id;
}

/** Takes the person's calendar address back for good, with its event; false when none held. */
export async function revokeCalendarFeed(tx: TenantTx, person: PersonId): Promise<boolean> {
  const [row] = await tx.$queryRaw<{ revoked: boolean }[]>`
    select gate.revoke_calendar_feed(${person}::uuid) as revoked`;
  if (!row!.revoked) return false;
  await recordOfficeEvent(tx, person, { what: "calendar-revoked", subject: "member", subjectId: person });
  return true;
}

const DAY_MS = 86_400_000;

/** The person's visits from a week ago to two months ahead, also cancelled ones, which a calendar must be told of. */
export async function listFeedVisits(tx: TenantTx, person: PersonId, now: Date): Promise<FeedVisit[]> {
  const within = { gte: new Date(now.getTime() - 7 * DAY_MS), lt: new Date(now.getTime() + 60 * DAY_MS) };
  const visits = await tx.visit.findMany({
    where: {
      people: { some: { personId: person } },
      OR: [{ plannedStart: within }, { plannedStart: null, windowFrom: within }],
    },
    orderBy: { id: "asc" },
    take: 1000,
    include: {
      people: { select: { person: { select: { name: true } } }, orderBy: { person: { name: "asc" } } },
      workOrder: {
        select: {
          number: true,
          serviceCall: {
            select: {
              symptom: true,
              customer: { select: { name: true } },
              site: true,
              equipment: { select: { name: true } },
            },
          },
        },
      },
    },
  });
  return visits.map(({ workOrder, people, ...visit }) => {
    const { site, customer, equipment, symptom } = workOrder.serviceCall;
    return {
      id: visit.id,
      version: visit.version,
      state: visit.state,
      windowFrom: visit.windowFrom,
      windowTo: visit.windowTo,
      plannedStart: visit.plannedStart,
      plannedMinutes: visit.plannedMinutes,
      orderNumber: Number(workOrder.number),
      customer: customer.name,
      unit: equipment?.name ?? null,
      symptom,
      people: people.map(({ person: { name } }) => name),
      site: {
        name: site.name,
        address: [site.street, `${site.postalCode} ${site.city}`.trim()].filter(Boolean).join(", "),
        timeZone: site.timeZone,
        accessNote: site.accessNote,
        latitude: site.latitude,
        longitude: site.longitude,
      },
    };
  });
}
