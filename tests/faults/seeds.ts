/** Seeds that once found something; they are played every time. */
const KEPT: readonly number[] = [];
const USUAL_RUNS = 200;

/** The kept seeds and then as many as FAULT_RUNS asks for, from FAULT_SEED on. */
export function seedsToPlay(): number[] {
  const runs = Number(process.env.FAULT_RUNS ?? USUAL_RUNS);
  const first = Number(process.env.FAULT_SEED ?? 1);
  const fresh = Array.from({ length: Math.max(runs - KEPT.length, 0) }, (_, n) => first + n);
  return process.env.FAULT_SEED === undefined ? [...KEPT, ...fresh] : fresh;
}
