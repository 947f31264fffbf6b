import type { DispatchJob, DispatchProblem, Technician } from "@/lib/dispatch";
import { RandomNumbers } from "@/lib/dispatch/random-numbers";

const SKILLS = ["split", "vrf", "co2", "ammonia"];
const PARTS = ["R-32", "R-744"];

/** A day made by chance: whatever the format can say turns up, sensible or not. */
export function makeProblem(seed: number, mostJobs = 14): DispatchProblem & { readonly format: "dispatch-problem/1" } {
  const random = new RandomNumbers(seed);
  const chance = (share: number) => random.fraction() < share;
  const between = (low: number, high: number) => low + random.below(high - low + 1);
  const some = (from: readonly string[], share: number) => from.filter(() => chance(share));
  const decimals = chance(0.2);
  const time = (low: number, high: number) => (decimals ? low + random.fraction() * (high - low) : between(low, high));
  const places = between(1, 12);
  const at = Array.from({ length: places }, () => [between(0, 3000), between(0, 3000)] as const);
  const travelSeconds = at.map(([x, y], a) =>
    at
      .map(([u, v], b) => (a === b ? 0 : Math.hypot(x - u, y - v) * (0.8 + 0.4 * random.fraction())))
      .map((s) => (decimals ? s : Math.round(s))),
  );
  const place = () => random.below(places);
  const technicians = Array.from({ length: chance(0.05) ? 0 : between(1, 5) }, (_, r): Technician => {
    const begin = time(21_600, 36_000);
    const lunchFrom = time(28_000, 46_000);
    return {
      id: `T${r}`,
      skills: some(SKILLS, 0.7),
      start: place(),
      end: chance(0.2) ? null : place(),
      shift: [begin, begin + time(chance(0.1) ? -2_000 : 10_000, 36_000)],
      ...(chance(0.5) ? { maxOvertime: time(0, 5_400) } : {}),
      ...(chance(0.6) ? { lunch: { window: [lunchFrom, lunchFrom + time(0, 7_200)], duration: time(0, 3_600) } } : {}),
      ...(chance(0.4) ? { stock: { "R-32": between(0, 6) } } : {}),
      ...(chance(0.3) ? { capacity: between(0, 30) } : {}),
      ...(chance(0.3) ? { maxJobs: between(0, 6) } : {}),
      ...(chance(0.3) ? { from: { location: place(), time: time(20_000, 50_000) } } : {}),
    };
  });
  const person = () => (technicians.length === 0 ? "T0" : `T${random.below(technicians.length)}`);
  const jobs = Array.from({ length: chance(0.05) ? 0 : between(1, mostJobs) }, (_, j): DispatchJob => {
    const windows = Array.from({ length: between(0, 3) }, () => {
      const from = time(10_000, 60_000);
      return [from, from + time(chance(0.1) ? -500 : 0, 9_000)] as const;
    });
    return {
      id: `J${j}`,
      location: place(),
      duration: chance(0.15) ? 0 : time(300, 7_200),
      skills: some(SKILLS, 0.2),
      priority: between(1, 4),
      ...(chance(0.6) ? { windows } : {}),
      ...(chance(0.3) ? { due: time(20_000, 60_000) } : {}),
      ...(chance(0.2) ? { releasedAt: time(20_000, 50_000) } : {}),
      ...(chance(0.3) ? { parts: Object.fromEntries(some(PARTS, 0.6).map((part) => [part, between(0, 3)])) } : {}),
      ...(chance(0.4) ? { load: between(0, 12) } : {}),
      ...(chance(0.08) ? { lockedTo: person() } : {}),
      ...(chance(0.05) ? { lockedStart: time(25_000, 55_000) } : {}),
      ...(chance(0.2) ? { preferredTechnicians: [person()] } : {}),
      ...(chance(0.1) ? { excludedTechnicians: [person()] } : {}),
      ...(chance(0.4)
        ? { promised: { technician: person(), start: time(25_000, 55_000), tolerance: between(0, 1_800) } }
        : {}),
    };
  });
  return {
    format: "dispatch-problem/1",
    name: `made ${seed}`,
    now: chance(0.5) ? 0 : time(20_000, 45_000),
    travelSeconds,
    technicians,
    jobs,
    objective: {
      travelPerSecond: 1,
      technicianUsed: chance(0.3) ? 5_000 : 0,
      unassigned: { "1": 6_000, "2": 15_000, "3": 45_000, "4": 150_000 },
      latenessPerSecond: { "1": 0.5, "2": 1, "3": 3, "4": 10 },
      responsePerSecond: { "4": 1 },
      overtimePerSecond: 3,
      preferenceMiss: 900,
      changeTechnician: 1_800,
      changeStartPerSecond: 0.5,
      dropPromised: 12_000,
    },
  };
}
