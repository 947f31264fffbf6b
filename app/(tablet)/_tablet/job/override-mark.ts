import { closingWords } from "@/lib/words/en/closing";

/** What became of an override that was asked for, as shape and word. */
export function overrideMark(answer: "none" | "granted" | "refused" | "contested") {
  switch (answer) {
    case "none":
      return { state: "waiting", word: closingWords.askedWaiting } as const;
    case "granted":
      return { state: "cannot-say", word: closingWords.granted } as const;
    case "refused":
      return { state: "refused", word: closingWords.refused } as const;
    case "contested":
      return { state: "needs-you", word: closingWords.twoAnswers } as const;
  }
}
