/** Hours of running after which pump oil is changed at the latest. @source common practice: service handbooks give 10 h */
export const OIL_HOURS_LIMIT = 10;

/** What a tool's standing is told by; days as YYYY-MM-DD or a moment that begins with one. */
export interface ToolDates {
  readonly kind: string;
  readonly calibrationDueOn: string | null;
  /** Absent in what an older program kept on a tablet. */
  readonly checkDueOn?: string | null;
  readonly doubtedOn?: string | null;
  readonly oilRunHours: number | null;
}

/** Why a tool should not be leaned on that day, each in a few words; nothing where it may. */
export function listToolFaults(tool: ToolDates, day: string): string[] {
  const { kind, calibrationDueOn, checkDueOn = null, doubtedOn = null, oilRunHours } = tool;
  const late = (due: string | null) => due !== null && due.slice(0, 10) < day;
  return [
    ...(late(calibrationDueOn) ? [`calibration ran out on ${calibrationDueOn!.slice(0, 10)}`] : []),
    ...(late(checkDueOn) ? [`look was due on ${checkDueOn!.slice(0, 10)}`] : []),
    ...(doubtedOn !== null ? [`in doubt since ${doubtedOn.slice(0, 10)}`] : []),
    ...(kind === "pump" && oilRunHours !== null && oilRunHours >= OIL_HOURS_LIMIT
      ? [`oil has run ${Math.round(oilRunHours * 10) / 10} h`]
      : []),
  ];
}
