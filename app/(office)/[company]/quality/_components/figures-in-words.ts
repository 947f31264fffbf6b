import type { QualityReport } from "@/lib/quality";
import { dateWords } from "@/lib/work/site-time";

/** A ratio as people read it. */
export function timesWords(ratio: number): string {
  return ratio >= 10 ? ratio.toFixed(0) : ratio.toFixed(1);
}

/** The answer in one sentence and how sure it is. */
export function headline({ enough, weakAgainstSound }: QualityReport): { title: string; text: string } {
  const { riskRatio, riskRatio95, weak, sound } = weakAgainstSound;
  const counts = `${weak.callbacks} of ${weak.jobs} against ${sound.callbacks} of ${sound.jobs}`;
  if (!enough.verdict) {
    const why = enough.text.replace(/^[^:]*: /, "");
    return { title: "Too little data to say what weak proof costs", text: why[0]!.toUpperCase() + why.slice(1) };
  }
  if (riskRatio === null || riskRatio95 === null)
    return { title: "Weakly and soundly proven jobs differ", text: `${counts} came back. ${enough.text}` };
  const [low, high] = riskRatio95.map(timesWords);
  const clear = riskRatio95[0] > 1 || riskRatio95[1] < 1;
  return {
    title: clear
      ? `Weakly proven jobs came back ${timesWords(riskRatio)} times as often`
      : "No clear difference between weakly and soundly proven jobs",
    text: `${counts} came back; the ratio lies between ${low} and ${high} (95 % interval). ${enough.text}`,
  };
}

/** What the ratio is once like is compared with like. */
export function adjustedWords({ adjusted }: QualityReport): string {
  const { mantelHaenszelRiskRatio: ratio, interval95, strata } = adjusted;
  if (ratio === null || interval95 === null)
    return "Compared within kind of job and age of unit nothing can be said: some group has no callback.";
  const [low, high] = interval95.map(timesWords);
  return `Compared within kind of job and age of unit (${strata} groups, Mantel-Haenszel): ${timesWords(ratio)} times, between ${low} and ${high}.`;
}

export function differenceWords({ weakAgainstSound }: QualityReport): string {
  const { riskDifference, riskDifference95 } = weakAgainstSound;
  if (riskDifference === null || riskDifference95 === null) return "One of the groups has no followed job.";
  const points = (share: number) => `${(share * 100).toFixed(1)}`;
  return `That is ${points(riskDifference)} callbacks more in 100 jobs (${points(riskDifference95[0])} to ${points(riskDifference95[1])}, Newcombe).`;
}

export function survivalWords({ survival }: QualityReport): string {
  const { p } = survival.logRank;
  if (p === null) return "The two cannot be compared: no callback, or one group without jobs.";
  const rounded = p < 0.0001 ? "below 0.0001" : p.toPrecision(2);
  return p < 0.05
    ? `They part by more than chance explains (log-rank, p ${rounded}).`
    : `They do not part by more than chance explains (log-rank, p ${rounded}).`;
}

/** What the counts rest on, beside every figure made of them. */
export function followedWords(asked: {
  followed: number;
  closed: number;
  windowDays: number;
  lastDay: string;
}): string {
  const { followed, closed, windowDays, lastDay } = asked;
  const young = closed - followed;
  return `A callback is a return within ${windowDays} days that a person confirmed. ${followed.toLocaleString("en-US")} jobs were followed that long${
    young > 0 ? `; ${young.toLocaleString("en-US")} closed after ${dateWords(lastDay)} are too young and left out` : ""
  }.`;
}
