"use client";

import { Callout } from "@/components/ui/notices";
import { StateMark } from "@/components/ui/state-mark";
import { fromPa, type RecoveryJudgement, recoveryLevelAbsPa, requiredRecoveryLevel, toPa } from "@/lib/hvac";
import { US_RECOVERY_SOURCES } from "@/lib/hvac/rulebook";
import { valueAt } from "../form/draft";
import { useForm } from "../form/form-context";
import { useJobHere } from "../job/job-context";
import { useUnits } from "../units/unit-choices";

/** The level the rule asks for here and today, where it stands, and whether the gauge is there. */
export function RecoveryLevel() {
  const { job } = useJobHere();
  const { draft } = useForm();
  const units = useUnits();
  const { circuit } = job.state;
  const fact = circuit?.refrigerant;
  const pressureClass = fact && fact.state !== "unknown" ? fact.pressureClass : null;
  if (!circuit || pressureClass === null || circuit.fullChargeKg === null)
    return (
      <Callout kind="note" title="The level cannot be said yet">
        {pressureClass === null
          ? "Identify the refrigerant: the level depends on its pressure class."
          : "The full charge is not known: the office can enter it in the register of units."}
      </Callout>
    );
  const age =
    valueAt(draft, "machine.dateClass") === "before-1993-11-15" ? "before-1993-11-15" : "on-or-after-1993-11-15";
  const level = requiredRecoveryLevel(pressureClass, circuit.fullChargeKg, age);
  const barometerKPa = typeof draft.atmosphericKPa === "number" ? draft.atmosphericKPa : 101.3;
  const requiredGaugeKPa = fromPa(recoveryLevelAbsPa(level, toPa(barometerKPa, "kPa")), "kPa") - barometerKPa;
  const read = draft.afterWaitGaugeKPa ?? draft.finalGaugeKPa;
  const hasAlternative = draft.alternative !== null && draft.alternative !== undefined;
  return (
    <div className="grid gap-1 border-l-3 border-edge bg-sunk px-4 py-3">
      <p className="text-small text-ink-soft">
        Required level{hasAlternative && " without the alternative named below"}
      </p>
      <p className="font-mono text-title">{levelWords(level)}</p>
      <p className="text-small text-ink-soft">
        {units.both("gaugePressure", requiredGaugeKPa)} on the gauge at this barometer · {pressureClass} pressure,{" "}
        {units.words("mass", circuit.fullChargeKg)} full charge · {US_RECOVERY_SOURCES.table.source}
      </p>
      {typeof read === "number" && (
        <StateMark
          {...(read <= requiredGaugeKPa + 0.01
            ? { state: "proven" as const, word: "The gauge is there" }
            : {
                state: "working" as const,
                word: `${units.words("gaugePressure", read - requiredGaugeKPa)} still to go`,
              })}
        />
      )}
    </div>
  );
}

function levelWords({ value, unit }: RecoveryJudgement["required"]["level"]): string {
  switch (unit) {
    case "inHg-vacuum":
      return value === 0 ? "0 psig" : `${value} inHg of vacuum`;
    case "mmHg-absolute":
      return `${value} mmHg absolute`;
    case "mmHg-below-atmosphere":
      return `${value} mmHg below the atmosphere`;
    case "percent-of-charge":
      return `${value} % of the charge`;
    case "psig":
      return `${value} psig`;
  }
}
