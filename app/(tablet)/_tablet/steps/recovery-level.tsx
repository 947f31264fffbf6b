"use client";

import { Callout } from "@/components/ui/notices";
import { StateMark } from "@/components/ui/state-mark";
import { fromPa, type RecoveryJudgement, recoveryLevelAbsPa, requiredRecoveryLevel, toPa } from "@/lib/hvac";
import { US_RECOVERY_SOURCES } from "@/lib/hvac/rulebook";
import { recoverWords } from "@/lib/words/en/recover";
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
      <Callout kind="note" title={recoverWords.noLevelYet}>
        {pressureClass === null ? recoverWords.identifyTheRefrigerant : recoverWords.fullChargeNotKnown}
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
        {hasAlternative ? recoverWords.requiredLevelWithoutAlternative : recoverWords.requiredLevel}
      </p>
      <p className="font-mono text-title">{levelWords(level)}</p>
      <p className="text-small text-ink-soft">
        {recoverWords.levelOnTheGauge(
          units.both("gaugePressure", requiredGaugeKPa),
          pressureClass,
          units.words("mass", circuit.fullChargeKg),
          US_RECOVERY_SOURCES.table.source,
        )}
      </p>
      <p role="status">
        {typeof read === "number" && (
          <StateMark
            {...(read <= requiredGaugeKPa + 0.01
              ? { state: "proven" as const, word: recoverWords.theGaugeIsThere }
              : {
                  state: "working" as const,
                  word: recoverWords.stillToGo(units.words("gaugePressure", read - requiredGaugeKPa)),
                })}
          />
        )}
      </p>
    </div>
  );
}

function levelWords({ value, unit }: RecoveryJudgement["required"]["level"]): string {
  switch (unit) {
    case "inHg-vacuum":
      return value === 0 ? "0 psig" : recoverWords.inHgOfVacuum(value);
    case "mmHg-absolute":
      return recoverWords.mmHgAbsolute(value);
    case "mmHg-below-atmosphere":
      return recoverWords.mmHgBelowAtmosphere(value);
    case "percent-of-charge":
      return recoverWords.percentOfCharge(value);
    case "psig":
      return `${value} psig`;
  }
}
