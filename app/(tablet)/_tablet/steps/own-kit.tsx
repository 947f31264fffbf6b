"use client";

import { Section } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import { makeSafeWords } from "@/lib/words/en/make-safe";
import { listToolWarnings, roomToRecover } from "@/lib/work/own-kit";
import { useDevice } from "../device/device-context";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";

/** What this person brings, looked over before anything is opened, while another can still be fetched. */
export function OwnKit() {
  const { person } = useDevice();
  const { job } = useJobHere();
  const units = useUnits();
  const { circuit } = job.state;
  const fact = circuit?.refrigerant;
  const need = {
    refrigerant: fact?.state === "identified" ? { name: fact.refrigerant, safetyClass: fact.safetyClass } : null,
    fullChargeKg: circuit?.fullChargeKg ?? null,
  };
  const today = new Date().toISOString().slice(0, 10);
  const own = <T extends { readonly heldBy?: string | null }>(all: readonly T[]) =>
    all.filter(({ heldBy }) => heldBy === person.desk.person);
  const tools = own(job.heading.tools);
  const cylinders = own(job.heading.cylinders);
  const warnings = listToolWarnings(tools, need, today);
  const { roomKg, unfit } = roomToRecover(cylinders, need, today);
  const isShort = roomKg !== null && need.fullChargeKg !== null && roomKg < need.fullChargeKg;
  if (tools.length === 0 && cylinders.length === 0) return null;
  return (
    <Section title={makeSafeWords.whatYouBring} lead={makeSafeWords.beforeAnythingIsOpened}>
      <ul className="grid gap-2">
        {warnings.map((line) => (
          <li key={line}>
            <StateMark state="needs-you" word={makeSafeWords.makesTheProofWeaker(line)} />
          </li>
        ))}
        {unfit.map((line) => (
          <li key={line}>
            <StateMark state="needs-you" word={line} />
          </li>
        ))}
        {warnings.length === 0 && tools.length > 0 && (
          <li>
            <StateMark state="proven" word={makeSafeWords.toolsInDate(tools.length)} />
          </li>
        )}
        {roomKg !== null && (
          <li>
            <StateMark
              state={isShort ? "needs-you" : "proven"}
              word={makeSafeWords.roomFor(
                roomKg === 0 ? null : units.both("mass", roomKg),
                need.refrigerant?.name,
                need.fullChargeKg === null ? null : units.both("mass", need.fullChargeKg),
              )}
            />
          </li>
        )}
      </ul>
    </Section>
  );
}
