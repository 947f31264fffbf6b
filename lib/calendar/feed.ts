import ical, { ICalCalendarMethod, ICalEventStatus } from "ical-generator";
import { windowAt } from "@/lib/work/site-time";

export interface FeedVisit {
  readonly id: string;
  readonly version: number;
  readonly state: string;
  readonly windowFrom: Date | null;
  readonly windowTo: Date | null;
  readonly plannedStart: Date | null;
  readonly plannedMinutes: number;
  readonly orderNumber: number;
  readonly customer: string;
  readonly unit: string | null;
  readonly symptom: string;
  readonly people: readonly string[];
  readonly site: {
    readonly name: string;
    readonly address: string;
    readonly timeZone: string;
    readonly accessNote: string;
    readonly latitude: number | null;
    readonly longitude: number | null;
  };
}

const ASK_AGAIN_S = 900;

/**
 * A person's visits as a calendar (RFC 5545), one event a visit, instants in UTC. A visit without a start stands as tentative in its
 * promised window. No telephone number and nothing of the job's record: the address may come into other hands.
 */
export function writeFeed(
  feed: { readonly name: string; readonly tabletUrl: string },
  visits: readonly FeedVisit[],
  now: Date,
): string {
  const calendar = ical({
    name: feed.name,
    prodId: { company: "Dryhold", product: "Visits", language: "EN" },
    method: ICalCalendarMethod.PUBLISH,
    ttl: ASK_AGAIN_S,
  });
  for (const visit of visits) {
    const { site } = visit;
    const [start, end] = spanOf(visit);
    calendar.createEvent({
      id: `${visit.id}@dryhold`,
      sequence: visit.version,
      stamp: now,
      start,
      end,
      summary: `${visit.customer}, ${site.name}`,
      description: describe(visit),
      location: {
        title: [site.name, site.address].filter(Boolean).join(", "),
        ...(site.latitude !== null && site.longitude !== null && { geo: { lat: site.latitude, lon: site.longitude } }),
      },
      status: statusOf(visit),
      url: feed.tabletUrl,
    });
  }
  return calendar.toString();
}

function spanOf({ plannedStart, plannedMinutes, windowFrom, windowTo }: FeedVisit): [Date, Date] {
  if (plannedStart) return [plannedStart, new Date(plannedStart.getTime() + plannedMinutes * 60_000)];
  return [windowFrom!, windowTo ?? windowFrom!];
}

function statusOf({ state, plannedStart }: FeedVisit): ICalEventStatus {
  if (state === "cancelled") return ICalEventStatus.CANCELLED;
  return plannedStart ? ICalEventStatus.CONFIRMED : ICalEventStatus.TENTATIVE;
}

function describe({ orderNumber, unit, symptom, windowFrom, windowTo, people, site }: FeedVisit): string {
  return [
    `Work order ${orderNumber}${unit ? `, ${unit}` : ""}`,
    symptom,
    windowFrom && windowTo && `Promised ${windowAt(windowFrom, windowTo, site.timeZone)} (${site.timeZone})`,
    people.length > 1 && `With ${people.join(", ")}`,
    site.accessNote && `Access: ${site.accessNote}`,
  ]
    .filter(Boolean)
    .join("\n");
}
