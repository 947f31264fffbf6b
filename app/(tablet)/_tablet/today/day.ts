import type { JobKindOrUnknown } from "@/lib/hvac/procedure";
import type { VisitState } from "@/lib/work/visit-state";

/** What the server says about today and tomorrow. */
export interface Day {
  readonly person: { readonly name: string };
  readonly visits: readonly DayVisit[];
}

export interface DayVisit {
  readonly id: string;
  readonly state: VisitState;
  readonly version?: number;
  /** Absent in what an older program kept, null when nobody is there. */
  readonly onSiteSince?: string | null;
  readonly windowFrom: string | null;
  readonly windowTo: string | null;
  readonly plannedStart: string | null;
  readonly plannedMinutes: number;
  readonly workOrder: { readonly id: string; readonly number: number };
  readonly call: { readonly number: number; readonly symptom: string; readonly urgency: string };
  readonly customer: { readonly name: string; readonly phone: string };
  readonly site: {
    readonly name: string;
    readonly street: string;
    readonly city: string;
    readonly postalCode: string;
    readonly timeZone: string;
    readonly accessNote: string;
    readonly latitude: number | null;
    readonly longitude: number | null;
  };
  readonly equipment: {
    readonly id: string;
    readonly name: string;
    readonly maker: string;
    readonly model: string;
    readonly serial: string;
    readonly place: string;
    readonly yearMade: number | null;
  } | null;
  readonly people: readonly { readonly personId: string; readonly name: string }[];
  readonly jobs: readonly DayJob[];
  readonly history: readonly PastJob[];
}

export interface DayJob {
  readonly id: string;
  readonly number: number;
  readonly circuitName: string;
  readonly refrigerant: string | null;
  readonly state: string;
  readonly kind: JobKindOrUnknown;
}

export interface PastJob {
  readonly jobNumber: number;
  readonly closedAt: string;
  readonly kind: JobKindOrUnknown;
  readonly strength: string | null;
  readonly weakReasons: readonly string[];
}

const ended = new Set<VisitState>(["done", "cancelled", "left-for-today"]);

/** The visit to look at first: the one under way, else the earliest that has not ended. */
export function nextVisit(visits: readonly DayVisit[]): DayVisit | undefined {
  const open = visits.filter((visit) => !ended.has(visit.state)).sort((a, b) => startOf(a) - startOf(b));
  return (
    open.find((visit) => visit.state === "on-site") ?? open.find((visit) => visit.state === "on-the-way") ?? open[0]
  );
}

export function startOf(visit: DayVisit): number {
  return Date.parse(visit.plannedStart ?? visit.windowFrom ?? "") || Number.MAX_SAFE_INTEGER;
}
