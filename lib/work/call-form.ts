import * as z from "zod";
import { line, paragraph } from "@/lib/registry/fields";
import { instantAt } from "./site-time";
import { jobKinds, urgencies } from "./words";

const id = z.uuid();
const maybe = <T extends z.ZodType>(schema: T) =>
  z.preprocess((value) => (value === "" ? undefined : value), schema.optional());
const localTime = z.string().regex(/^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}$/, "Give a date and a time.");
const clock = z.string().regex(/^\d{2}:\d{2}$/, "Give a time as hours and minutes.");
const day = z.iso.date("Give a date.");

/** A call as the form sends it. */
export const callForm = z.strictObject({
  customerId: id,
  siteId: z.uuid("Choose the site."),
  equipmentId: maybe(id),
  caller: line(200),
  symptom: paragraph(2000).refine((text) => text !== "", "Say what is wrong, in the caller's words."),
  urgency: z.enum(urgencies, "Choose how urgent it is."),
});

export const jobKindForm = z.enum(jobKinds, "Choose the kind of job.");

/** A visit's plan as the form sends it, in the site's local time. */
export const visitForm = z.strictObject({
  windowDay: maybe(day),
  windowFrom: maybe(clock),
  windowTo: maybe(clock),
  plannedStart: maybe(localTime),
  plannedMinutes: z.coerce
    .number<string>("Give the minutes as a number.")
    .int("Whole minutes.")
    .min(5, "At least 5 minutes.")
    .max(1440, "At most a day."),
  people: z.array(id),
});

/** The plan as instants, or what is wrong by field. */
export function planFrom(form: z.infer<typeof visitForm>, timeZone: string) {
  const errors: Record<string, string> = {};
  const given = [form.windowDay, form.windowFrom, form.windowTo].filter((part) => part !== undefined).length;
  let window: { from: Date; to: Date } | null = null;
  if (given === 3) {
    const from = instantAt(`${form.windowDay}T${form.windowFrom}`, timeZone);
    const to = instantAt(`${form.windowDay}T${form.windowTo}`, timeZone);
    if (from && to && from < to) window = { from, to };
    else errors.windowTo = "The window must end after it begins.";
  } else if (given > 0) {
    errors.windowDay = "A promise needs a day, a start and an end; leave all three empty for none.";
  }
  const plannedStart = form.plannedStart ? instantAt(form.plannedStart, timeZone) : null;
  if (form.plannedStart && !plannedStart) errors.plannedStart = "This time does not exist.";
  return { errors, plan: { window, plannedStart, plannedMinutes: form.plannedMinutes, people: form.people } };
}
