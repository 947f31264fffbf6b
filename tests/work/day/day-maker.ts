import { MIXED_ROADS } from "@/lib/dispatch";
import type { DayRecords, PersonRecord, ToolRecord, VisitCircuit, VisitRecord } from "@/lib/work/day/day-records";
import { instantAt } from "@/lib/work/site-time";

export const DAY = "2026-11-25"; // a Wednesday
export const ZONE = "America/Denver";

export const at = (clock: string, day = DAY) => instantAt(`${day}T${clock}`, ZONE)!;
/** Ids as the database makes them, by a small number. */
export const id = (n: number) => `00000000-0000-7000-8000-${String(n).padStart(12, "0")}`;

export const ANA = id(1);
export const BEN = id(2);

export function person(personId: string, given: Partial<PersonRecord> = {}): PersonRecord {
  return {
    personId,
    name: personId === ANA ? "Ana" : personId === BEN ? "Ben" : personId,
    certificates: [{ kind: "us-universal", expiresOn: null }],
    hasWeek: true,
    shift: { beginsMinute: 480, endsMinute: 1020 },
    times: [],
    base: { latitudeDeg: 39.7, longitudeDeg: -104.9 },
    endsAtBase: true,
    isApprentice: false,
    ridesWith: null,
    maxVisits: null,
    stock: null,
    ...given,
  };
}

let visits = 100;
export function visit(given: Partial<VisitRecord> = {}): VisitRecord {
  visits += 1;
  return {
    id: id(visits),
    label: `Work order ${visits}`,
    version: 1,
    state: "planned",
    window: null,
    plannedStart: null,
    plannedMinutes: 60,
    people: [],
    earlierPeople: [],
    siteId: id(visits + 1000),
    at: { latitudeDeg: 39.72, longitudeDeg: -104.95 },
    urgency: "soon",
    calledAt: at("07:00"),
    circuits: [],
    parts: {},
    peopleNeeded: 1,
    pinnedTo: null,
    isStartPinned: false,
    preferredPerson: null,
    ...given,
  };
}

export function circuit(given: Partial<VisitCircuit> = {}): VisitCircuit {
  return {
    refrigerantState: "identified",
    actualRefrigerant: "R-410A",
    factoryChargeKg: 3.4,
    applianceKind: "comfort_cooling",
    kind: "leak_repair",
    safetyClass: "A1",
    ...given,
  };
}
export const mild = circuit({ actualRefrigerant: "R-454B", safetyClass: "A2L" });

export function tool(heldBy: string, kind: string, given: Partial<ToolRecord> = {}): ToolRecord {
  return { kind, heldBy, calibrationDueOn: null, ratedFor: ["A1"], ...given };
}

export function dayOf(given: Partial<DayRecords>): DayRecords {
  return {
    day: DAY,
    timeZone: ZONE,
    ruleSet: "us",
    limits: {
      maxDayMinutes: null,
      maxOvertimeMinutes: 0,
      maxWeekMinutes: null,
      minRestMinutes: null,
      lunch: { fromMinute: 690, toMinute: 810, minutes: 30 },
      startSlackMinutes: 15,
    },
    roads: MIXED_ROADS,
    yard: null,
    people: [person(ANA)],
    tools: [],
    visits: [],
    otherDays: [],
    ...given,
  };
}
