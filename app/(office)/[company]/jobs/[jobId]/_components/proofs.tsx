import { Section } from "@/components/ui/section";
import { HoldPicture } from "@/components/work/hold-picture";
import type { ReadJob } from "@/lib/db/job-summary";
import { listHolds } from "@/lib/work/holds";

/** Every isolated hold of the job as a picture with its verdict, the latest first. */
export function Proofs({ state, entries, traces }: Pick<ReadJob, "state" | "entries" | "traces">) {
  const holds = listHolds({ state, entries, traces });
  return (
    <Section title="Isolated holds">
      {holds.length === 0 && <p className="text-ink-soft">No hold has been recorded yet.</p>}
      {holds.map((hold, index) => (
        <div key={hold.entry} className="grid gap-2">
          <HoldPicture
            title={`Hold ${holds.length - index} of ${holds.length}`}
            evidence={hold.evidence}
            readings={hold.readings}
            criteria={hold.criteria}
            refrigerant={hold.refrigerant}
          />
          <p className="text-small text-ink-soft">
            {hold.readings.length} readings, {hold.evidence.source}; gauge {hold.evidence.gauge.label} at the{" "}
            {hold.evidence.gauge.location}.{" "}
            {hold.counts
              ? "This is the hold the step rests on."
              : "It does not count now: a later entry replaced or undid it."}
            {hold.deviceVerdict &&
              ` The tablet said ${hold.deviceVerdict.verdict} (rules ${hold.deviceVerdict.rulesVersion}).`}
          </p>
        </div>
      ))}
    </Section>
  );
}
