// Two years of an invented company, drawn at random from a truth that is set here, so that figures can be checked against it.

/** How many times as often a weakly proven job comes back, in every kind of job and at every age of unit: the truth. */
export const WEAK_PROOF_RATIO = 2.2;
export const HISTORY_DAYS = 730;
export const CALLBACK_WINDOW_DAYS = 90;

export const PAST_KINDS = ["leak_repair", "compressor_change", "pump_down_service"] as const;
export type PastKind = (typeof PAST_KINDS)[number];

/** Risk of coming back on sound proof in a unit of middling age. */
const riskOf: Record<PastKind, number> = { leak_repair: 0.065, compressor_change: 0.05, pump_down_service: 0.035 };
const kindShares: readonly (readonly [PastKind, number])[] = [
  ["leak_repair", 0.55],
  ["compressor_change", 0.25],
  ["pump_down_service", 0.2],
];

/** What limits a weak or fair proof in this past; a strong one has nothing. */
export type ProofStory = "sound" | "typed-hold" | "cores-left-in" | "gauge-overdue" | "hold-allowed";
const strengthOf = {
  sound: "strong",
  "typed-hold": "fair",
  "cores-left-in": "fair",
  "gauge-overdue": "weak",
  "hold-allowed": "weak",
} as const satisfies Record<ProofStory, "strong" | "fair" | "weak">;

export interface PastJob {
  readonly closedDay: number;
  readonly kind: PastKind;
  /** Place in the lists of units and people. */
  readonly unit: number;
  readonly person: number;
  readonly story: ProofStory;
  readonly strength: "strong" | "fair" | "weak";
  /** Day of the return it caused; never after today. */
  readonly backDay: number | null;
  /** Day of a return within the window that has nothing to do with it. */
  readonly unrelatedDay: number | null;
}

export interface PastWorld {
  readonly todayDay: number;
  /** Year each unit was made in. */
  readonly unitYears: readonly number[];
  /** How readily each person leaves a proof weak, around 1. */
  readonly haste: readonly number[];
  /** Jobs on a working day, on the yearly average. */
  readonly jobsPerDay: number;
}

/**
 * The company's closed jobs, oldest first. Old units are proven weakly more often and also come back more often, so the
 * plain ratio overstates what weak proof does and the adjusted one must find the truth.
 */
export function drawPast(world: PastWorld, random: () => number): PastJob[] {
  const jobs: PastJob[] = [];
  for (let day = world.todayDay - HISTORY_DAYS; day < world.todayDay; day++) {
    const date = new Date(day * 86_400_000);
    if (date.getUTCDay() === 0 || date.getUTCDay() === 6) continue;
    const summer = 1 - 0.45 * Math.cos(((date.getUTCMonth() + 0.5) / 12) * 2 * Math.PI);
    for (let left = world.jobsPerDay * summer; random() < left; left -= 1) jobs.push(drawJob(world, day, random));
  }
  return jobs;
}

function drawJob(world: PastWorld, closedDay: number, random: () => number): PastJob {
  const kind = drawKind(random());
  const unit = Math.floor(random() * world.unitYears.length);
  const person = Math.floor(random() * world.haste.length);
  const age = new Date(closedDay * 86_400_000).getUTCFullYear() - world.unitYears[unit]!;
  const old = age >= 15 ? 1.7 : age >= 10 ? 1.35 : age >= 5 ? 1 : 0.75;
  const story = drawStory(0.16 * old * world.haste[person]!, random);
  const strength = strengthOf[story];
  const risk = riskOf[kind] * old * (strength === "weak" ? WEAK_PROOF_RATIO : 1);
  const back = closedDay + 1 + Math.floor((CALLBACK_WINDOW_DAYS - 1) * random() ** 1.8);
  const returns = random() < risk;
  const unrelated = closedDay + 1 + Math.floor((CALLBACK_WINDOW_DAYS - 1) * random());
  const alsoComes = random() < 0.02;
  return {
    closedDay,
    kind,
    unit,
    person,
    story,
    strength,
    backDay: returns && back <= world.todayDay ? back : null,
    unrelatedDay: !returns && alsoComes && unrelated <= world.todayDay ? unrelated : null,
  };
}

function drawKind(at: number): PastKind {
  let left = at;
  for (const [kind, share] of kindShares) {
    if (left < share) return kind;
    left -= share;
  }
  return PAST_KINDS[0];
}

function drawStory(weakShare: number, random: () => number): ProofStory {
  const first = random();
  const second = random();
  if (first < weakShare) return second < 0.7 ? "gauge-overdue" : "hold-allowed";
  if (second < 0.62) return "sound";
  return second < 0.85 ? "typed-hold" : "cores-left-in";
}

/** Numbers in [0, 1) that are the same on every run. @source mulberry32, public domain (from memory) */
export function seededRandom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}
