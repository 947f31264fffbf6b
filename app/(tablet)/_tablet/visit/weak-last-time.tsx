import { StateMark } from "@/components/ui/state-mark";
import { todayWords } from "@/lib/words/en/today";
import type { PastJob } from "../today/day";

/** What the last proof on this unit could not show: the thing to look at first. */
export function WeakLastTime({ history }: { history: readonly PastJob[] }) {
  const last = [...history].sort((a, b) => Date.parse(b.closedAt) - Date.parse(a.closedAt))[0];
  if (!last || last.strength === null || last.strength === "strong" || last.weakReasons.length === 0) return null;
  return (
    <div className="border-l-3 border-needs-you bg-needs-you-wash px-4 py-3">
      <p>
        <StateMark state="needs-you" word={todayWords.proofLastTime(last.strength)} />{" "}
        {todayWords.inJob(last.jobNumber)}
      </p>
      <ul className="mt-1 list-disc pl-6">
        {last.weakReasons.map((reason) => (
          <li key={reason}>{reason}</li>
        ))}
      </ul>
    </div>
  );
}
