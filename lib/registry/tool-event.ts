import * as z from "zod";
import { JobId, ToolId } from "@/lib/ids";
import { line, optionalDate, optionalId, optionalNumber } from "./fields";
import { type ToolKind, toolParts } from "./tool";

export const TOOL_EVENTS = ["oil-changed", "blank-off", "calibrated", "checked", "compared"] as const;
export type ToolEventKind = (typeof TOOL_EVENTS)[number];

const kindsOf: Record<ToolEventKind, readonly ToolKind[]> = {
  "oil-changed": toolParts.pump,
  "blank-off": toolParts.pump,
  calibrated: toolParts.calibration,
  checked: toolParts.check,
  compared: ["vacuum-gauge", "pressure-gauge", "thermometer", "scale"],
};

/** What can be written down about a tool of this kind. */
export function eventsOf(kind: ToolKind): readonly ToolEventKind[] {
  return TOOL_EVENTS.filter((event) => kindsOf[event].includes(kind));
}

const missing = (path: string, message: string) => ({ code: "custom" as const, path: [path], message });

/** What became of a tool, as the office types it; only what belongs to the event is kept. */
export const toolEventForm = z
  .strictObject({
    what: z.enum(TOOL_EVENTS),
    onDay: z.iso.date({ error: "On which day?" }),
    micron: optionalNumber({ over: 0, max: 760_000 }).default(null),
    dueOn: optionalDate.default(null),
    result: z.enum(["good", "bad"]).default("good"),
    otherToolId: optionalId(ToolId).default(null),
    reading: optionalNumber({ min: -1000, max: 10_000_000 }).default(null),
    otherReading: optionalNumber({ min: -1000, max: 10_000_000 }).default(null),
    jobId: optionalId(JobId).default(null),
    note: line(2000).default(""),
  })
  .superRefine((event, context) => {
    if (event.what === "blank-off" && event.micron === null)
      context.addIssue(missing("micron", "What did it reach, blanked off?"));
    if ((event.what === "calibrated" || event.what === "checked") && event.dueOn !== null && event.dueOn <= event.onDay)
      context.addIssue(missing("dueOn", "Due again before it was done."));
    if (event.what !== "compared") return;
    if (event.otherToolId === null) context.addIssue(missing("otherToolId", "Compared with which one?"));
    if (event.reading === null) context.addIssue(missing("reading", "What did this one show?"));
    if (event.otherReading === null) context.addIssue(missing("otherReading", "What did the other one show?"));
  });
export type ToolEventFields = z.output<typeof toolEventForm>;

export interface Measuring {
  readonly accuracyPercent: number | null;
  readonly resolution: number | null;
}

/**
 * How far apart two instruments on the same quantity may be: each one's accuracy of its own reading and one step of each, added up.
 * Null where neither says anything of itself. The worst case, so that two good instruments are never called apart.
 */
export function allowedDifference(
  reading: number,
  own: Measuring,
  otherReading: number,
  other: Measuring,
): number | null {
  const parts = [
    own.accuracyPercent === null ? null : (Math.abs(reading) * own.accuracyPercent) / 100,
    other.accuracyPercent === null ? null : (Math.abs(otherReading) * other.accuracyPercent) / 100,
    own.resolution,
    other.resolution,
  ].filter((part) => part !== null);
  return parts.length === 0 ? null : parts.reduce((sum, part) => sum + part, 0);
}

/** A pump that reaches no more than twice its own ultimate vacuum, blanked off, is fit. Null where its ultimate is not known. @source common practice */
export function isBlankOffGood(micron: number, ultimateMicron: number | null): boolean | null {
  return ultimateMicron === null ? null : micron <= 2 * ultimateMicron;
}
