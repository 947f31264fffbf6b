import { fromKg, fromPa, type MassUnit, type PressureUnit, toKg, toPa } from "@/lib/hvac";
import { dayOf, type JobTool } from "../job/job-heading";
import type { OpenJob } from "../job/use-job";

export function toolName(tool: JobTool): string {
  return tool.serial ? `${tool.name} (${tool.serial})` : tool.name;
}

/** The tool of its kind that this person carries, as evidence names it; empty where they carry none, or have to say which. */
export function ownTool(
  job: OpenJob,
  person: string,
  kind: string,
  fill: (tool: JobTool) => Readonly<Record<string, unknown>>,
): Readonly<Record<string, unknown>> {
  const [tool, another] = job.heading.tools.filter((each) => each.kind === kind && each.heldBy === person);
  return tool && !another ? { toolId: tool.id, label: toolName(tool), ...fill(tool) } : {};
}

/** What a vacuum gauge of the register brings into evidence. */
export function vacuumGaugeFacts(tool: JobTool) {
  return {
    calibrationDueOn: dayOf(tool.calibrationDueOn),
    ...(tool.resolution !== null && { resolutionMicron: inPressure(tool, "micron") }),
    ...(tool.accuracyPercent !== null && { accuracyPercent: tool.accuracyPercent }),
  };
}

export function pressureGaugeFacts(tool: JobTool) {
  return {
    calibrationDueOn: dayOf(tool.calibrationDueOn),
    ...(tool.resolution !== null && { resolutionKPa: inPressure(tool, "kPa") }),
    ...(tool.accuracyPercent !== null && { accuracyPercent: tool.accuracyPercent }),
  };
}

export function pumpFacts(tool: JobTool) {
  return { litresPerSecond: tool.litresPerSecond, ultimateMicron: tool.ultimateMicron };
}

export function scaleFacts(tool: JobTool) {
  const unit = (tool.resolutionUnit ?? "g") as MassUnit;
  return {
    calibrationDueOn: dayOf(tool.calibrationDueOn),
    ...(tool.resolution !== null && { resolutionKg: fromKg(toKg(tool.resolution, unit), "kg") }),
  };
}

/** The age of a recovery machine decides which column of the rule it is held to. */
export function recoveryMachineFacts(tool: JobTool) {
  const madeOn = dayOf(tool.madeOn);
  return {
    ...(madeOn !== null && { dateClass: madeOn < "1993-11-15" ? "before-1993-11-15" : "on-or-after-1993-11-15" }),
    ratedForFlammables:
      tool.ratedFor.length === 0 ? null : tool.ratedFor.some((each) => each !== "A1" && each !== "B1"),
  };
}

function inPressure(tool: JobTool, unit: PressureUnit): number {
  return fromPa(toPa(tool.resolution ?? 0, (tool.resolutionUnit ?? unit) as PressureUnit), unit);
}
