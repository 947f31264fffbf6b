import type { CylinderId, ToolId, TraceId } from "@/lib/ids";
import type { KitCylinder } from "@/lib/work/own-kit";

/** What the server says about a job beside its log: kept on the device with it. */
export interface JobHeading {
  readonly job: {
    readonly id: string;
    readonly number: number;
    readonly workOrder: { readonly id: string; readonly number: number };
    readonly customer: string;
    readonly symptom: string;
    readonly site: {
      readonly name: string;
      readonly street: string;
      readonly city: string;
      readonly timeZone: string;
    };
    readonly equipment: {
      readonly name: string;
      readonly place: string;
      readonly maker: string;
      readonly model: string;
      readonly serial: string;
    };
    readonly circuit: { readonly id: string; readonly name: string; readonly nameplateRefrigerant: string | null };
    readonly visits: readonly string[];
  };
  /** Names of who has written in the log; none in what an older program kept. */
  readonly people?: readonly { readonly id: string; readonly name: string }[];
  readonly traces: readonly {
    readonly traceId: TraceId;
    readonly chunks: readonly { readonly index: number; readonly digest: string; readonly sampleCount: number }[];
  }[];
  readonly tools: readonly JobTool[];
  readonly cylinders: readonly JobCylinder[];
  readonly upTo: number;
}

export interface JobTool {
  readonly id: ToolId;
  readonly kind: string;
  readonly name: string;
  readonly serial: string;
  readonly calibrationDueOn: string | null;
  readonly madeOn: string | null;
  readonly ratedFor: readonly string[];
  readonly resolution: number | null;
  readonly resolutionUnit: string | null;
  readonly accuracyPercent: number | null;
  readonly litresPerSecond: number | null;
  readonly ultimateMicron: number | null;
  readonly oilChangedAt: string | null;
  readonly oilRunHours: number | null;
  /** The rest is absent in what an older program kept. */
  readonly heldBy?: string | null;
  readonly checkDueOn?: string | null;
  readonly doubtedOn?: string | null;
}

export interface JobCylinder extends KitCylinder {
  readonly id: CylinderId;
  /** Absent in what an older program kept. */
  readonly heldBy?: string | null;
}

/** A calendar day out of what may be a moment. */
export function dayOf(at: string | null): string | null {
  return at === null ? null : at.slice(0, 10);
}
