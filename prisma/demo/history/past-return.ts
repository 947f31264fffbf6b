import type { CallbackCauseCode } from "@/lib/work/callback-causes";
import type { PastJob } from "./draw-past";

/** Returns of the last days are left for a person to decide. */
const UNDECIDED_DAYS = 6;

const afterWeak: readonly CallbackCauseCode[] = ["moisture-left", "leak-not-found", "moisture-left", "air-left"];
const afterSound: readonly CallbackCauseCode[] = [
  "leak-at-worked-joint",
  "part-failed",
  "wrong-diagnosis",
  "electrical-or-control",
  "wrong-charge",
];

/** What came of a job's return, if one came: what was said, what a person decided, what it cost. */
export function pastReturn(job: PastJob, todayDay: number, random: () => number) {
  const [pick, amount, cost] = [random(), random(), random()];
  const day = job.backDay ?? job.unrelatedDay;
  if (day === null) return null;
  const workHours = Math.round((1.5 + 4 * amount) * 4) / 4;
  const came = { basis: "same-circuit", came_on: new Date(day * 86_400_000).toISOString().slice(0, 10) };
  const nothing = {
    cause_code: null,
    work_hours: null,
    travel_cents: null,
    refrigerant_cents: null,
    parts_cents: null,
    goodwill_cents: null,
  };
  if (todayDay - day < UNDECIDED_DAYS)
    return { day, workHours, said: "Not cooling again.", row: { ...came, ...nothing, state: "proposed" } };
  if (job.backDay === null)
    return { day, workHours, said: "Filter light is on.", row: { ...came, ...nothing, state: "not-related" } };
  const causes = job.strength === "weak" ? afterWeak : afterSound;
  const row = {
    ...came,
    state: "confirmed",
    cause_code: causes[Math.floor(pick * causes.length)]!,
    work_hours: workHours,
    travel_cents: 4000 + Math.round(4000 * cost),
    refrigerant_cents: Math.round(9000 * amount),
    parts_cents: pick > 0.6 ? Math.round(22_000 * cost) : 0,
    goodwill_cents: pick < 0.15 ? 12_000 : 0,
  };
  return { day, workHours, said: "Not cooling again.", row };
}
