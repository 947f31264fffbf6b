import "server-only";
import { readDayProblem } from "@/lib/db/dispatch/day-problem";
import type { TenantTx } from "@/lib/db/tenant";
import { listPromisableWindows, type TimeWindow } from "@/lib/dispatch";
import { findRefrigerant } from "@/lib/hvac";
import type { CompanyId } from "@/lib/ids";
import { configuredRoadService } from "@/lib/travel/road-service";
import { minutesWords } from "@/lib/work/board/board";
import { standingPlan } from "@/lib/work/day/day-problem";
import type { VisitRecord } from "@/lib/work/day/day-records";
import { placeOf } from "@/lib/work/day/planning-rules";
import type { WindowOffer } from "@/lib/work/offer";
import { addDays, clockAt, dayAt, windowAt } from "@/lib/work/site-time";

export interface OfferQuestion {
  readonly siteId: string;
  readonly circuitId: string | null;
  readonly minutes: number;
  readonly urgency: string;
}

const HOUR_S = 3600;
/** Arrival windows of two hours over the working day: common practice. */
const WINDOWS: readonly TimeWindow[] = [8, 10, 12, 14, 16].map((hour) => [hour * HOUR_S, (hour + 2) * HOUR_S] as const);
const DAYS = 3;
const MOST = 6;
/** Stands for the call that is not written yet. */
const ASKED = "00000000-0000-4000-8000-000000000000";

/**
 * Windows of today and the next days in which somebody who may do it can be there, with every other promise kept and
 * nobody's visits changed. Null where there is no such site.
 */
export async function offerWindows(
  company: { readonly companyId: CompanyId; readonly timeZone: string; readonly ruleSet: "us" | "eu" },
  question: OfferQuestion,
  now: Date,
): Promise<readonly WindowOffer[] | null> {
  const today = dayAt(now, company.timeZone);
  const roadService = configuredRoadService();
  const offers: WindowOffer[] = [];
  for (let n = 0; n < DAYS && offers.length < MOST; n++) {
    const day = addDays(today, n);
    let zone: string | null = null;
    const made = await readDayProblem(company, day, {
      ...(n === 0 && { now }),
      ...(roadService && { roadService }),
      also: async (tx) => {
        const asked = await findAsked(tx, question, now);
        zone = asked?.timeZone ?? null;
        return asked ? [asked.visit] : [];
      },
    });
    if (zone === null) return null;
    const call = made.problem.jobs.find(({ id }) => id === ASKED)!;
    const problem = { ...made.problem, jobs: made.problem.jobs.filter(({ id }) => id !== ASKED) };
    const nowS = n === 0 ? made.clock.secondsOf(now) : 0;
    const open = WINDOWS.filter(([, closesS]) => closesS > nowS + HOUR_S);
    for (const { window, offer } of listPromisableWindows(problem, standingPlan(made), call, open)) {
      if (offer === undefined || offers.length >= MOST) continue;
      const [from, to] = [made.clock.instantOf(window[0]), made.clock.instantOf(window[1])];
      offers.push({
        day: dayAt(from, zone),
        from: clockAt(from, zone),
        to: clockAt(to, zone),
        words: windowAt(from, to, zone),
        detail: `${made.names.get(offer.technician) ?? "somebody"}, ${minutesWords(Math.max(0, offer.addedCost) / 60)} more on the road`,
        personId: offer.technician,
      });
    }
  }
  return offers;
}

async function findAsked(
  tx: TenantTx,
  { siteId, circuitId, minutes, urgency }: OfferQuestion,
  now: Date,
): Promise<{ visit: VisitRecord; timeZone: string } | null> {
  const site = await tx.site.findFirst({
    where: { id: siteId },
    select: { timeZone: true, latitude: true, longitude: true },
  });
  if (site === null) return null;
  const circuit =
    circuitId === null
      ? null
      : await tx.circuit.findFirst({
          where: { id: circuitId, equipment: { siteId } },
          select: {
            refrigerantState: true,
            actualRefrigerant: true,
            factoryChargeKg: true,
            equipment: { select: { applianceKind: true } },
          },
        });
  const known = circuit?.actualRefrigerant ? findRefrigerant(circuit.actualRefrigerant) : undefined;
  const circuits = circuit
    ? [
        {
          refrigerantState: circuit.refrigerantState,
          actualRefrigerant: circuit.actualRefrigerant,
          factoryChargeKg: circuit.factoryChargeKg,
          applianceKind: circuit.equipment.applianceKind,
          kind: "unknown",
          safetyClass: known?.safetyClass ?? null,
        },
      ]
    : [];
  const visit: VisitRecord = {
    id: ASKED,
    version: 0,
    label: "This call",
    state: "planned",
    window: null,
    plannedStart: null,
    plannedMinutes: minutes,
    people: [],
    earlierPeople: [],
    siteId,
    at: placeOf(site.latitude, site.longitude),
    urgency,
    calledAt: now,
    circuits,
    parts: {},
    peopleNeeded: 1,
    pinnedTo: null,
    isStartPinned: false,
    preferredPerson: null,
  };
  return { visit, timeZone: site.timeZone };
}
