import { judges } from "@/lib/hvac/procedure";
import { digestOf } from "./digest";

const MOST = 2000;

/**
 * The product's judges with their last answers remembered: a log is folded at every page and every entry, and the same test
 * under the same criteria has the same verdict. The judges are pure, so a remembered answer is never out of date in one process or page.
 */
export const rememberedJudges = {
  ...judges,
  pressureTest: remembered(judges.pressureTest),
  hold: remembered(judges.hold),
};

function remembered<Question, Answer>(judge: (question: Question) => Answer): (question: Question) => Answer {
  const answers = new Map<string, Answer>();
  return (question) => {
    const key = digestOf(question);
    const known = answers.get(key);
    if (known !== undefined) return known;
    const answer = judge(question);
    if (answers.size >= MOST) answers.delete(answers.keys().next().value as string);
    answers.set(key, answer);
    return answer;
  };
}
