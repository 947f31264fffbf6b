import type { State } from "@/components/ui/state-mark";
import { todayWords } from "@/lib/words/en/today";
import type { VisitState } from "@/lib/work/visit-state";

/** A visit's state as shape and word. */
export function visitStateOf(state: VisitState): { state: State; word: string } {
  switch (state) {
    case "planned":
      return { state: "waiting", word: todayWords.visitState[state] };
    case "on-the-way":
      return { state: "working", word: todayWords.visitState[state] };
    case "on-site":
      return { state: "working", word: todayWords.visitState[state] };
    case "left-for-today":
      return { state: "needs-you", word: todayWords.visitState[state] };
    case "done":
      return { state: "proven", word: todayWords.visitState[state] };
    case "cancelled":
      return { state: "cannot-say", word: todayWords.visitState[state] };
  }
}
