import { Z95 } from "./interval";
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

/** Whether the jobs at hand can tell weak from sound proof, and if not, what is missing. */
export function judgeEnough({ weak, sound, fisherTwoSidedP }: Comparison): Enough {
  const jobs = weak.jobs + sound.jobs;
  if (jobs === 0) return { verdict: false, text: "No job has been followed for the whole window yet." };
  if (weak.jobs === 0) return { verdict: false, text: "No weakly proven job has been followed: nothing to compare." };
  if (sound.jobs === 0) return { verdict: false, text: "No soundly proven job has been followed: nothing to compare." };
  if (weak.callbacks + sound.callbacks === 0)
    return { verdict: false, text: `No callback among ${jobs} followed jobs: their risks cannot be compared yet.` };
  if (fisherTwoSidedP !== null && fisherTwoSidedP < 0.05)
    return { verdict: true, text: `${jobs} followed jobs: the difference is larger than chance explains (5 % level).` };
  const pooled = (weak.callbacks + sound.callbacks) / jobs;
  const baseRate = sound.callbacks > 0 ? sound.callbacks / sound.jobs : pooled;
  if (baseRate === 1)
    return { verdict: false, text: "Every soundly proven job came back: no higher risk could be told." };
  const needed = jobsToTellDoubledRisk(baseRate, weak.jobs / jobs);
  if (jobs >= needed)
    return { verdict: true, text: `${jobs} followed jobs: enough to tell a doubled risk; no clear difference shows.` };
  return {
    verdict: false,
    text: `Too little data to say: about ${needed - jobs} more followed jobs needed to tell a doubled risk (now ${jobs}).`,
  };
}
