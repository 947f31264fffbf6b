import * as z from "zod";
import { PersonId } from "@/lib/ids";
import { line, optionalDate, optionalId, optionalNumber, requiredLine } from "./fields";
import { type InDate, judgeInDate } from "./in-date";
import { OIL_HOURS_LIMIT } from "./tool-faults";

export const TOOL_KINDS = [
  "pump",
  "vacuum-gauge",
  "pressure-gauge",
  "thermometer",
  "recovery-machine",
  "scale",
  "leak-detector",
  "hoses",
  "regulator",
  "other",
] as const;
export type ToolKind = (typeof TOOL_KINDS)[number];

export const SAFETY_CLASSES = ["A1", "A2L", "A2", "A3", "B1", "B2L", "B2", "B3"] as const;
export const RESOLUTION_UNITS = ["micron", "Pa", "mbar", "kPa", "psi", "bar", "K", "g"] as const;

const measuring: readonly ToolKind[] = [
  "vacuum-gauge",
  "pressure-gauge",
  "thermometer",
  "scale",
  "leak-detector",
  "regulator",
];
const nearRefrigerant: readonly ToolKind[] = ["pump", "recovery-machine", "leak-detector", "hoses", "vacuum-gauge"];

/** What is asked of a tool of each kind; the rest is neither shown nor kept. */
export const toolParts = {
  calibration: measuring,
  resolution: ["vacuum-gauge", "pressure-gauge", "thermometer", "scale"],
  madeOn: ["recovery-machine"],
  ratedFor: nearRefrigerant,
  pump: ["pump"],
  check: ["pump", "recovery-machine", "hoses", "regulator", "other"],
} as const satisfies Record<string, readonly ToolKind[]>;

const has = (part: keyof typeof toolParts, kind: ToolKind) => (toolParts[part] as readonly ToolKind[]).includes(kind);

/** A tool as the office types it; what does not belong to its kind is let go. */
export const toolForm = z
  .strictObject({
    kind: z.enum(TOOL_KINDS),
    name: requiredLine(200, "Give the tool a name people will find it by."),
    serial: line(200),
    heldBy: optionalId(PersonId),
    calibratedOn: optionalDate.default(null),
    calibrationDueOn: optionalDate.default(null),
    madeOn: optionalDate.default(null),
    ratedFor: z.array(z.enum(SAFETY_CLASSES)).default([]),
    resolution: optionalNumber({ over: 0, max: 100_000 }).default(null),
    resolutionUnit: z.union([z.literal("").transform(() => null), z.enum(RESOLUTION_UNITS)]).default(null),
    accuracyPercent: optionalNumber({ min: 0, max: 50 }).default(null),
    litresPerSecond: optionalNumber({ over: 0, max: 1_000 }).default(null),
    ultimateMicron: optionalNumber({ over: 0, max: 100_000 }).default(null),
    oilChangedOn: optionalDate.default(null),
    oilRunHours: optionalNumber({ min: 0, max: 100_000 }).default(null),
    checkDueOn: optionalDate.default(null),
  })
  .refine(({ calibratedOn: from, calibrationDueOn: to }) => from === null || to === null || from < to, {
    path: ["calibrationDueOn"],
    error: "Due before it was calibrated.",
  })
  .refine(
    ({ kind, resolution, resolutionUnit }) =>
      !has("resolution", kind) || resolution === null || resolutionUnit !== null,
    {
      path: ["resolutionUnit"],
      error: "Give the unit of the resolution.",
    },
  )
  .transform((tool) => ({
    kind: tool.kind,
    name: tool.name,
    serial: tool.serial,
    heldBy: tool.heldBy,
    calibratedOn: has("calibration", tool.kind) ? tool.calibratedOn : null,
    calibrationDueOn: has("calibration", tool.kind) ? tool.calibrationDueOn : null,
    accuracyPercent: has("calibration", tool.kind) ? tool.accuracyPercent : null,
    madeOn: has("madeOn", tool.kind) ? tool.madeOn : null,
    ratedFor: has("ratedFor", tool.kind) ? [...new Set(tool.ratedFor)] : [],
    resolution: has("resolution", tool.kind) ? tool.resolution : null,
    resolutionUnit: has("resolution", tool.kind) && tool.resolution !== null ? tool.resolutionUnit : null,
    litresPerSecond: has("pump", tool.kind) ? tool.litresPerSecond : null,
    ultimateMicron: has("pump", tool.kind) ? tool.ultimateMicron : null,
    oilChangedOn: has("pump", tool.kind) ? tool.oilChangedOn : null,
    oilRunHours: has("pump", tool.kind) ? tool.oilRunHours : null,
    checkDueOn: has("check", tool.kind) ? tool.checkDueOn : null,
  }));
export type ToolFields = z.output<typeof toolForm>;

export interface ToolStanding {
  readonly calibration: InDate | "not-asked";
  /** The look its maker or the company asks for from time to time; not asked where no date is kept. */
  readonly check: InDate | "not-asked";
  readonly oil: "fresh" | "due" | "not-known" | "not-asked";
}

/** Whether a tool may be leaned on today (YYYY-MM-DD): calibration for what measures, oil for pumps. */
export function judgeTool(
  tool: Pick<ToolFields, "kind" | "calibrationDueOn" | "checkDueOn" | "oilRunHours">,
  today: string,
): ToolStanding {
  return {
    calibration: has("calibration", tool.kind) ? judgeInDate(tool.calibrationDueOn, today) : "not-asked",
    check: has("check", tool.kind) && tool.checkDueOn !== null ? judgeInDate(tool.checkDueOn, today) : "not-asked",
    oil: oilOf(tool),
  };
}

function oilOf({ kind, oilRunHours }: Pick<ToolFields, "kind" | "oilRunHours">): ToolStanding["oil"] {
  if (kind !== "pump") return "not-asked";
  if (oilRunHours === null) return "not-known";
  return oilRunHours >= OIL_HOURS_LIMIT ? "due" : "fresh";
}
