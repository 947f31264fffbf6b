import type { State } from "@/components/ui/state-mark";
import type { VisitState } from "@/lib/work/visit-state";

/** A visit's state as shape and word. */
export function visitStateOf(state: VisitState): { state: State; word: string } {
  switch (state) {
    case "planned":
      return { state: "waiting", word: "Planned" };
    case "on-the-way":
      return { state: "working", word: "On the way" };
    case "on-site":
      return { state: "working", word: "On site" };
    case "left-for-today":
      return { state: "needs-you", word: "Left for today" };
    case "done":
      return { state: "proven", word: "Done" };
    case "cancelled":
      return { state: "cannot-say", word: "Cancelled" };
  }
}
