import { Temporal } from "temporal-polyfill";
import * as z from "zod";
import { requiredLine } from "@/lib/registry/fields";

/** How long before a time's first day its call is made: enough to find a place for it. */
export const LEAD_DAYS = 28;

/** Something done on a unit or one of its circuits every so many months, each time within some weeks from its day. */
export interface MaintenanceCycle {
  /** YYYY-MM-DD, the first time. */
  readonly firstDue: string;
  readonly everyMonths: number;
  readonly windowWeeks: number;
  /** How many times have had their call, or were passed over. */
  readonly timesCalled: number;
}

/** The day of a time, counted from the first so that a 31st stays one where the month has it. */
export function dayOfTime({ firstDue, everyMonths }: MaintenanceCycle, times: number): string {
  return Temporal.PlainDate.from(firstDue)
    .add({ months: everyMonths * times })
    .toString();
}

/**
 * The time a call is to be made for today: its window, and how many times are settled with it. Of several that were missed only the latest.
 * Null: none yet.
 */
export function timeToCall(
  cycle: MaintenanceCycle,
  today: string,
): { readonly dueFrom: string; readonly dueBy: string; readonly timesCalled: number } | null {
  const until = Temporal.PlainDate.from(today).add({ days: LEAD_DAYS }).toString();
  let times = cycle.timesCalled;
  if (dayOfTime(cycle, times) > until) return null;
  while (dayOfTime(cycle, times + 1) <= until) times += 1;
  const dueFrom = dayOfTime(cycle, times);
  const dueBy = Temporal.PlainDate.from(dueFrom)
    .add({ days: cycle.windowWeeks * 7 })
    .toString();
  return { dueFrom, dueBy, timesCalled: times + 1 };
}

const whole = (max: number, words: string) =>
  z
    .string()
    .trim()
    .regex(/^\d{1,3}$/, words)
    .transform(Number)
    .refine((number) => number >= 1 && number <= max, words);

/** A plan as the office types it. */
export const maintenanceForm = z.strictObject({
  equipmentId: z.uuid().lowercase(),
  circuitId: z.union([z.literal("").transform(() => null), z.uuid().lowercase()]),
  what: requiredLine(300, "Say what is done."),
  everyMonths: whole(120, "From 1 to 120 months."),
  firstDue: z.iso.date("Give the first day."),
  windowWeeks: whole(26, "From 1 to 26 weeks."),
});
