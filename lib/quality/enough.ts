import { Z95 } from "./interval";
import { wilsonInterval } from "./rates";
import type { Comparison } from "./two-groups";

/** Normal deviate of 80 % power. */
const Z80 = 0.8416212335729143;

export interface Enough {
  readonly verdict: boolean;
  readonly text: string;
}

/**
 * Jobs needed in both groups together to see a doubled risk in 8 of 10 such samples, at the 5 % level.
 * @param baseRate risk in the sound group, above 0 and below 1; from one half on, "doubled" means half way to certain
 * @param weakShare share of weakly proven jobs, above 0 and below 1
 * @source Fleiss, Levin and Paik, Statistical Methods for Rates and Proportions (2003), section 4.5, without continuity
 * correction (from memory)
 */
export function jobsToTellDoubledRisk(baseRate: number, weakShare: number): number {
  const raised = baseRate < 0.5 ? Math.min(2 * baseRate, (1 + baseRate) / 2) : (1 + baseRate) / 2;
  const mean = weakShare * raised + (1 - weakShare) * baseRate;
  const alike = Math.sqrt((mean * (1 - mean)) / (weakShare * (1 - weakShare)));
  const apart = Math.sqrt((raised * (1 - raised)) / weakShare + (baseRate * (1 - baseRate)) / (1 - weakShare));
  return Math.ceil(((Z95 * alike + Z80 * apart) / (raised - baseRate)) ** 2);
}

/** What is supposed where nothing is known yet: 5 callbacks in 100 jobs, one job in five weakly proven. */
const SUPPOSED = { baseRate: 0.05, weakShare: 0.2 };

/** Whether the jobs at hand can tell weak from sound proof; if not, what is missing and how many jobs it takes. */
export function judgeEnough({ weak, sound, fisherTwoSidedP }: Comparison): Enough {
  const jobs = weak.jobs + sound.jobs;
  const callbacks = weak.callbacks + sound.callbacks;
  if (jobs === 0) {
    const needed = jobsToTellDoubledRisk(SUPPOSED.baseRate, SUPPOSED.weakShare);
    return tooLittle(
      `no job has been followed for the whole window yet. With 5 callbacks in 100 jobs and one job in five weakly proven it takes about ${needed} to tell a doubled risk`,
    );
  }
  if (callbacks === 0) {
    const [, atMost] = wilsonInterval({ jobs, callbacks });
    const weakShare = weak.jobs > 0 && sound.jobs > 0 ? weak.jobs / jobs : 0.5;
    return tooLittle(
      `no callback among ${jobs} followed jobs. Telling a doubled risk takes at least ${jobsToTellDoubledRisk(atMost, weakShare)}`,
    );
  }
  const baseRate = sound.callbacks > 0 ? sound.callbacks / sound.jobs : callbacks / jobs;
  if (weak.jobs === 0 || sound.jobs === 0) {
    const missing = weak.jobs === 0 ? "weakly" : "soundly";
    const needed = baseRate < 1 ? `at least ${jobsToTellDoubledRisk(baseRate, 0.5)} followed jobs` : "more of both";
    return tooLittle(
      `no ${missing} proven job among ${jobs} followed ones, so there is nothing to compare. Telling a doubled risk takes ${needed}`,
    );
  }
  if (fisherTwoSidedP !== null && fisherTwoSidedP < 0.05)
    return { verdict: true, text: `${jobs} followed jobs: the difference is larger than chance explains (5 % level).` };
  if (baseRate === 1)
    return tooLittle(`all ${sound.jobs} soundly proven jobs came back, so no higher risk can be told`);
  const needed = jobsToTellDoubledRisk(baseRate, weak.jobs / jobs);
  if (jobs >= needed)
    return { verdict: true, text: `${jobs} followed jobs: enough to tell a doubled risk; no clear difference shows.` };
  return tooLittle(`about ${needed - jobs} more followed jobs are needed to tell a doubled risk (now ${jobs})`);
}

function tooLittle(why: string): Enough {
  return { verdict: false, text: `Too little data to say: ${why}.` };
}
