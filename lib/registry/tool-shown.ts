import * as z from "zod";
import { ok, type Result } from "@/lib/result";
import { type InvalidFields, invalidFields } from "./form";
import type { ToolFields } from "./tool";

const day = z.iso.date().nullable();

/** What a tool's form showed of the fields that logs and written history change too, as it was opened. */
export const toolShown = z.strictObject({
  calibratedOn: day,
  calibrationDueOn: day,
  checkDueOn: day,
  oilChangedOn: day,
  oilRunHours: z.number().nullable(),
});
export type ToolShown = z.output<typeof toolShown>;

/** Hours as the form shows them. */
export function shownHours(hours: number | null): number | null {
  return hours === null ? null : Math.round(hours * 100) / 100;
}

export function shownOf(tool: ToolShown): ToolShown {
  const { calibratedOn, calibrationDueOn, checkDueOn, oilChangedOn, oilRunHours } = tool;
  return { calibratedOn, calibrationDueOn, checkDueOn, oilChangedOn, oilRunHours: shownHours(oilRunHours) };
}

/**
 * What is written when a form opened a while ago is saved: what nobody touched in it stays as it is now, hours that logs added in the
 * meantime stay added to a corrected count, and where both sides changed a date the form is refused.
 */
export function keepWhatCameSince(
  shown: ToolShown,
  typed: ToolFields,
  now: ToolShown,
): Result<ToolFields, InvalidFields> {
  const nowShown = shownOf(now);
  const kept: { -readonly [K in keyof ToolShown]: ToolShown[K] } = shownOf(typed);
  const errors: Record<string, string> = {};
  const decide = <K extends keyof ToolShown>(field: K) => {
    if (typed[field] === shown[field]) kept[field] = now[field];
    else if (nowShown[field] !== shown[field] && nowShown[field] !== typed[field])
      errors[field] =
        `Since this form was opened it became ${nowShown[field] ?? "empty"}. Load the page again and look.`;
  };
  for (const field of ["calibratedOn", "calibrationDueOn", "checkDueOn", "oilChangedOn"] as const) decide(field);
  const isSameOil = shown.oilChangedOn === now.oilChangedOn && typed.oilChangedOn === shown.oilChangedOn;
  const hasRun = nowShown.oilRunHours !== shown.oilRunHours;
  if (isSameOil && hasRun && typed.oilRunHours !== null && shown.oilRunHours !== null && now.oilRunHours !== null) {
    const corrected = typed.oilRunHours - shown.oilRunHours;
    kept.oilRunHours = Math.max(0, now.oilRunHours + corrected);
  } else decide("oilRunHours");
  return Object.keys(errors).length > 0 ? invalidFields(errors) : ok({ ...typed, ...kept });
}
