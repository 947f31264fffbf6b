import type { Coordinates, RoadProfile } from "@/lib/dispatch";
import type { SafetyClass } from "@/lib/hvac/refrigerants/refrigerant";
import type { Certificate, CertifiedCircuit } from "../qualification";

/** A company's limits for one day of one person; null where it sets none. */
export interface PlanningLimits {
  readonly maxDayMinutes: number | null;
  readonly maxOvertimeMinutes: number;
  readonly maxWeekMinutes: number | null;
  readonly minRestMinutes: number | null;
  readonly lunch: { readonly fromMinute: number; readonly toMinute: number; readonly minutes: number } | null;
  /** How far a start may move before it counts as a change. */
  readonly startSlackMinutes: number;
}

export interface ShiftRecord {
  readonly beginsMinute: number;
  readonly endsMinute: number;
}

export interface TimeRecord {
  readonly kind: "away" | "on-call";
  readonly fromAt: Date;
  readonly toAt: Date;
}

export interface PersonRecord {
  readonly personId: string;
  readonly name: string;
  readonly certificates: readonly Certificate[];
  /** Whether any ordinary week is on record; without one nobody knows when this person works. */
  readonly hasWeek: boolean;
  readonly shift: ShiftRecord | null;
  readonly times: readonly TimeRecord[];
  readonly base: Coordinates | null;
  readonly endsAtBase: boolean;
  readonly isApprentice: boolean;
  readonly ridesWith: string | null;
  readonly maxVisits: number | null;
  /** Null: nothing is on record, and the van is taken to carry what is asked for. */
  readonly stock: Readonly<Record<string, number>> | null;
}

export interface ToolRecord {
  readonly kind: string;
  readonly heldBy: string | null;
  readonly calibrationDueOn: Date | null;
  readonly checkDueOn?: Date | null;
  /** Two gauges differed by more than they may. */
  readonly doubtedOn?: Date | null;
  readonly ratedFor: readonly string[];
}

export interface VisitCircuit extends CertifiedCircuit {
  /** The kind of its circuit job, as last folded. */
  readonly kind: string;
  readonly safetyClass: SafetyClass | null;
}

export interface VisitRecord {
  readonly id: string;
  readonly label: string;
  /** Counts every change of the visit; who changes it names the one they saw. */
  readonly version: number;
  readonly state: string;
  readonly window: { readonly from: Date; readonly to: Date } | null;
  readonly plannedStart: Date | null;
  readonly plannedMinutes: number;
  readonly people: readonly string[];
  /** Who came on earlier visits of the same work order. */
  readonly earlierPeople: readonly string[];
  readonly siteId: string;
  readonly at: Coordinates | null;
  readonly urgency: string;
  readonly calledAt: Date;
  readonly circuits: readonly VisitCircuit[];
  readonly parts: Readonly<Record<string, number>>;
  readonly peopleNeeded: number;
  readonly pinnedTo: string | null;
  readonly isStartPinned: boolean;
  readonly preferredPerson: string | null;
}

/** Work of one person on another day of the week, from the first start to the last end. */
export interface OtherDayRecord {
  readonly personId: string;
  readonly fromAt: Date;
  readonly toAt: Date;
}

/** Everything of a company that bears on one day, as the database holds it. */
export interface DayRecords {
  readonly day: string;
  readonly timeZone: string;
  readonly ruleSet: "us" | "eu";
  readonly limits: PlanningLimits;
  readonly roads: RoadProfile;
  readonly yard: Coordinates | null;
  readonly people: readonly PersonRecord[];
  readonly tools: readonly ToolRecord[];
  readonly visits: readonly VisitRecord[];
  readonly otherDays: readonly OtherDayRecord[];
}
