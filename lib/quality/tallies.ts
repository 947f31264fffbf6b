import { type Cohort, type CohortJob, STRENGTHS, type Strength } from "./cohort";
import type { Tally } from "./interval";
import type { Stratum } from "./strata";
import type { FollowUp } from "./survival";

/**
 * A cohort counted up: all that its figures need, however many jobs it has.
 * Rates, strata and people hold followed jobs only; follow-ups hold all.
 */
export interface CohortTallies {
  readonly byStrength: Readonly<Record<Strength, Tally>>;
  readonly strata: readonly Stratum[];
  readonly people: ReadonlyMap<string, Tally>;
  readonly followUps: { readonly weak: readonly FollowUp[]; readonly sound: readonly FollowUp[] };
}

export function isWeak(strength: Strength): boolean {
  return strength === "weak" || strength === "none";
}

export function tallyCohort({ todayDay, windowDays, jobs }: Cohort): CohortTallies {
  const tallier = new CohortTallier();
  for (const job of jobs) {
    const seenDays = Math.min(todayDay - job.closedDay, windowDays);
    const callbackAfter = job.callbackDay === null ? Number.POSITIVE_INFINITY : job.callbackDay - job.closedDay;
    const event = callbackAfter <= seenDays;
    tallier.follow(job.strength, { day: event ? callbackAfter : seenDays, event });
    if (todayDay - job.closedDay < windowDays) continue;
    const followed = { jobs: 1, callbacks: event ? 1 : 0 };
    tallier.count(job.strength, stratumKey(job), followed);
    tallier.countPerson(job.technician, followed);
  }
  return tallier.tallies;
}

/** Counts jobs up, one by one or many alike at once. */
export class CohortTallier {
  readonly #byStrength = Object.fromEntries(STRENGTHS.map((each) => [each, empty()])) as Record<Strength, Counter>;
  readonly #strata = new Map<string, { weak: Counter; sound: Counter }>();
  readonly #people = new Map<string, Counter>();
  readonly #followUps: Record<"weak" | "sound", FollowUp[]> = { weak: [], sound: [] };

  /** Followed jobs of one strength and stratum. */
  count(strength: Strength, stratum: string, followed: Tally): void {
    add(this.#byStrength[strength], followed);
    const pair = entry(this.#strata, stratum, () => ({ weak: empty(), sound: empty() }));
    add(isWeak(strength) ? pair.weak : pair.sound, followed);
  }

  /** Followed jobs of one person. */
  countPerson(technician: string, followed: Tally): void {
    add(entry(this.#people, technician, empty), followed);
  }

  follow(strength: Strength, followUp: FollowUp): void {
    this.#followUps[isWeak(strength) ? "weak" : "sound"].push(followUp);
  }

  get tallies(): CohortTallies {
    const { weak, sound } = this.#followUps;
    return {
      byStrength: this.#byStrength,
      strata: [...this.#strata.values()],
      people: this.#people,
      followUps: { weak, sound },
    };
  }
}

interface Counter {
  jobs: number;
  callbacks: number;
}

function empty(): Counter {
  return { jobs: 0, callbacks: 0 };
}

function add(counter: Counter, { jobs, callbacks }: Tally): void {
  counter.jobs += jobs;
  counter.callbacks += callbacks;
}

function entry<V>(map: Map<string, V>, key: string, make: () => V): V {
  const known = map.get(key);
  if (known !== undefined) return known;
  const made = make();
  map.set(key, made);
  return made;
}

/** The same combination of values is the same stratum in whatever order its names were written. */
function stratumKey({ stratum }: CohortJob): string {
  const names = Object.keys(stratum).sort();
  return JSON.stringify(names.concat(names.map((name) => stratum[name]!)));
}
