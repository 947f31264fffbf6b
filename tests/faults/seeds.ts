/** Seeds that once found something; they are played every time. */
const KEPT: readonly number[] = [
  11,
  12,
  43,
  49, // the technician left the company with unsent work: it was never taken
];
const USUAL_RUNS = 200;

/** As many seeds as FAULT_RUNS asks for, from FAULT_SEED on; without one, the kept seeds are always among them. */
export function seedsToPlay(): number[] {
  const runs = Number(process.env.FAULT_RUNS ?? USUAL_RUNS);
  const first = Number(process.env.FAULT_SEED ?? 1);
  const seeds = Array.from({ length: runs }, (_, n) => first + n);
  return process.env.FAULT_SEED === undefined ? [...KEPT.filter((seed) => seed > runs), ...seeds] : seeds;
}
