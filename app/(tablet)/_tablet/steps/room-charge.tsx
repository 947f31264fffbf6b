"use client";

import { StateMark } from "@/components/ui/state-mark";
import { findRefrigerant } from "@/lib/hvac";
import { chargeWords } from "@/lib/words/en/charge";
import { valueAt } from "../form/draft";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";
import { roomLimit } from "./room-limit";

/** What the published room formula gives for this room, beside the limit typed: it warns, and permits nothing. */
export function RoomCharge() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const fact = job.state.circuit?.refrigerant;
  const refrigerant = fact?.state === "identified" ? findRefrigerant(fact.refrigerant) : undefined;
  const roomAreaM2 = valueAt(draft, "flammable.roomAreaM2");
  const place = valueAt(draft, "flammable.mountingHeight");
  const limit = roomLimit(refrigerant, roomAreaM2, place, valueAt(draft, "flammable.chargeLimitKg"));
  if (!limit) return null;
  const mass = (kg: number) => units.words("mass", kg);
  return (
    <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
      <p className="text-small text-ink-soft">{chargeWords.byTheRoomFormula}</p>
      <p className="font-mono text-title">{mass(limit.atMostKg)}</p>
      <p className="text-small text-ink-soft">
        {chargeWords.roomFormula(mass(limit.unrestrictedKg), mass(limit.formulaEndsKg), limit.source)}
      </p>
      <p role="status">
        {limit.isBelowTyped && <StateMark state="needs-you" word={chargeWords.limitAboveTheFormula} />}
      </p>
    </div>
  );
}
