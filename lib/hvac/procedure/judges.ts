import { judgeChargeCheck } from "../charge/charge-check";
import { judgeWeighedCharge, planCharge } from "../charge/line-set";
import { subcoolingK, superheatK } from "../charge/superheat";
import { targetSuperheatK } from "../charge/target-superheat";
import { judgeCylinderFill, requalificationDueOn } from "../cylinder";
import { judgeHold } from "../hold/judge-hold";
import type { CircuitFacts, EvidenceOf, RecoveryAlternative } from "../log/entry";
import { judgePressureTest } from "../pressure-test/judge-pressure-test";
import { judgeRecovery, type RecoveryRoute } from "../recovery";
import { findRefrigerant, type Refrigerant } from "../refrigerants/refrigerant";
import { celsiusToKelvin, paToMicron, toPa } from "../units";
import { holdRecordOf } from "./hold-record";
import type {
  ChargeQuestion,
  CylinderQuestion,
  HoldQuestion,
  Judges,
  PerformanceQuestion,
  PressureTestQuestion,
  RecoveryQuestion,
} from "./judge-questions";
import type { Outcome, StepVerdict, VerdictReason } from "./verdict";

/** The rules behind the verdicts that name no version of their own. */
const RULES_VERSION = "judges-3";
const SECONDS_PER_MINUTE = 60;
const SECONDS_PER_HOUR = 3600;

/** The judges of the product: what the tablet and the server both ask. */
export const judges: Judges = {
  recovery: recoveryVerdict,
  pressureTest: pressureTestVerdict,
  hold: holdVerdict,
  charge: chargeVerdict,
  performance: performanceVerdict,
  cylinders: cylinderAlarms,
};

function recoveryVerdict({ evidence, circuit }: RecoveryQuestion): StepVerdict {
  const fact = circuit?.refrigerant;
  const pressureClass = fact === undefined || fact.state === "unknown" ? null : fact.pressureClass;
  if (circuit === null || pressureClass === null) {
    return unproven(
      "refrigerant-unknown",
      "Identify the refrigerant: the level to reach depends on its pressure class.",
    );
  }
  if (circuit.fullChargeKg === null) {
    return unproven("full-charge-unknown", "Enter the full charge: the level to reach depends on it.");
  }
  if (evidence.method === "passive" && circuit.fullChargeKg > PASSIVE_LIMIT_KG) {
    return unproven("passive-not-allowed", "Recovery without a machine is only for charges up to 15 lb.");
  }
  const judgement = judgeRecovery({
    pressureClass,
    fullChargeKg: circuit.fullChargeKg,
    // Without a machine there is no age to go by; the stricter column is asked for.
    machineAge: evidence.machine?.dateClass ?? "on-or-after-1993-11-15",
    barometerPa: toPa(evidence.atmosphericKPa, "kPa"),
    route: routeOf(evidence.alternative, evidence.compressorWorking === true, circuit),
    finalGaugePa: toPa(evidence.finalGaugeKPa, "kPa"),
    afterWaitGaugePa: evidence.waitedMinutes > 0 ? toPa(evidence.afterWaitGaugeKPa, "kPa") : undefined,
    recoveredKg: recoveredKg(evidence),
  });
  const watched = !judgement.reasons.some(({ code }) => code === "not-watched");
  const reached: Outcome = watched ? "passed" : "unproven";
  const outcome =
    judgement.verdict === "reached" ? reached : judgement.verdict === "not-reached" ? "failed" : "unproven";
  return {
    outcome,
    verdict: judgement.verdict,
    reasons: judgement.reasons.map(plainReason),
    figures: judgement.required.pressureAbsPa === null ? {} : { requiredAbsPa: judgement.required.pressureAbsPa },
    rulesVersion: RULES_VERSION,
  };
}
/** @source 40 CFR 82.156, system-dependent recovery up to 15 lb (secondary) */
const PASSIVE_LIMIT_KG = 15 * 0.45359237;

function routeOf(
  alternative: RecoveryAlternative | null,
  compressorWorks: boolean,
  circuit: CircuitFacts,
): RecoveryRoute {
  if (alternative === null) {
    if (circuit.applianceClass === "small-appliance")
      return { kind: "small-appliance", factorySealed: true, compressorWorks };
    return { kind: circuit.applianceClass === "mvac-like" ? "mvac-like" : "table" };
  }
  switch (alternative.code) {
    case "level-unattainable": {
      const { because, evidence, soundPartsIsolated } = alternative;
      return { kind: "level-unattainable", because, evidence, soundPartsIsolated };
    }
    case "found-at-atmosphere": {
      const foundGaugePa = toPa(alternative.foundGaugeKPa, "kPa");
      return { kind: "found-at-atmosphere", foundGaugePa, evidence: alternative.evidence };
    }
    case "isolated-part":
      return { kind: "isolated-part", isolatedBy: alternative.isolatedBy };
    case "non-major-repair": {
      const { majorPartRemoved, evacuatedAfterwards } = alternative;
      return { kind: "non-major-repair", majorPartRemoved, evacuatedAfterwards };
    }
  }
}

function recoveredKg({ cylinders }: EvidenceOf<"recover">): number {
  return cylinders.reduce((sum, { grossBeforeKg, grossAfterKg }) => sum + grossAfterKg - grossBeforeKg, 0);
}

function pressureTestVerdict(question: PressureTestQuestion): StepVerdict {
  const { evidence, readings, criteria, maxTestKPaGauge, circuit } = question;
  const judgement = judgePressureTest({
    internalVolumeM3: evidence.internalVolumeL / 1000,
    atmosphericPa: toPa(evidence.atmosphericKPa, "kPa"),
    maxTestGaugePa: toPa(maxTestKPaGauge, "kPa"),
    refrigerant: designationOf(circuit),
    gauge: {
      resolutionPa: toPa(evidence.gauge.resolutionKPa, "kPa"),
      accuracyFraction: evidence.gauge.accuracyPercent / 100,
    },
    temperatureAccuracyK: evidence.temperatureAccuracyC,
    criteria: {
      testGaugePa: toPa(criteria.testPressureKPaGauge, "kPa"),
      holdS: criteria.holdMinutes * SECONDS_PER_MINUTE,
      maxLeakPaPerS: toPa(criteria.maxLeakKPaPerHour, "kPa") / SECONDS_PER_HOUR,
    },
    readings: readings.map(({ s, kPaGauge, temperatureC }) => ({
      atS: s,
      gaugePa: toPa(kPaGauge, "kPa"),
      temperatureK: celsiusToKelvin(temperatureC),
    })),
  });
  const { verdict, leak } = judgement;
  const perHour = (paPerS: number) => (paPerS * SECONDS_PER_HOUR) / 1000;
  return {
    outcome: verdict === "tight" ? "passed" : verdict === "unproven" ? "unproven" : "failed",
    verdict,
    reasons: judgement.reasons.map(plainReason),
    figures: leak
      ? {
          leakKPaPerHour: perHour(leak.paPerS),
          leakLowKPaPerHour: perHour(leak.interval95PaPerS[0]),
          leakHighKPaPerHour: perHour(leak.interval95PaPerS[1]),
        }
      : {},
    rulesVersion: RULES_VERSION,
  };
}

function holdVerdict({ evidence, readings, criteria, circuit }: HoldQuestion): StepVerdict {
  const judgement = judgeHold(holdRecordOf(evidence, readings, criteria, designationOf(circuit)));
  const { verdict, leak, settlesAt, smallestLeakShownPaPerS } = judgement;
  const perMinute = (paPerS: number) => paToMicron(paPerS) * SECONDS_PER_MINUTE;
  return {
    outcome: verdict === "dry-and-tight" ? "passed" : verdict === "unproven" ? "unproven" : "failed",
    verdict,
    reasons: judgement.reasons.map(plainReason),
    figures: {
      ...(leak && {
        leakMicronPerMin: perMinute(leak.ratePaPerS),
        leakLowMicronPerMin: perMinute(leak.interval95PaPerS[0]),
        leakHighMicronPerMin: perMinute(leak.interval95PaPerS[1]),
      }),
      ...(settlesAt && {
        settlesAtMicron: paToMicron(settlesAt.estimatePa),
        settlesLowMicron: paToMicron(settlesAt.interval95Pa[0]),
        settlesHighMicron: paToMicron(settlesAt.interval95Pa[1]),
      }),
      ...(smallestLeakShownPaPerS !== null && {
        smallestLeakShownMicronPerMin: perMinute(smallestLeakShownPaPerS),
      }),
    },
    rulesVersion: judgement.rulesVersion,
  };
}

/** Charge by weight: what was planned by the stated basis against what the scale says went in. */
function chargeVerdict({ evidence, chargedBeforeKg }: ChargeQuestion): StepVerdict {
  const planned = plannedKg(evidence);
  if (planned === null) {
    return unproven("charge-not-planned", "The charge by this basis makes no sense: check its numbers.");
  }
  if (evidence.flammable !== null && planned.totalKg > evidence.flammable.chargeLimitKg) {
    return unproven(
      "charge-limit-exceeded",
      "The charge is above the limit for this room: ask the maker before going on.",
    );
  }
  const scaleKg = evidence.scale.resolutionKg;
  const weighed = judgeWeighedCharge(
    planned.toWeighKg,
    evidence.weighedInKg + chargedBeforeKg,
    Math.max(scaleKg, DEFAULT_SCALE_KG),
  );
  const figures = { plannedKg: planned.toWeighKg, differenceKg: weighed.differenceKg };
  if (weighed.verdict === "as-planned") {
    return { outcome: "passed", verdict: weighed.verdict, reasons: [], figures, rulesVersion: RULES_VERSION };
  }
  const text =
    weighed.verdict === "too-little"
      ? "Less went in than planned: weigh in the rest."
      : "More went in than planned: take the surplus out and weigh it.";
  return {
    outcome: "unproven",
    verdict: weighed.verdict,
    reasons: [{ code: weighed.verdict, text }],
    figures,
    rulesVersion: RULES_VERSION,
  };
}
/** One ounce, the accuracy makers ask of a charging scale. @source split-system instructions */
const DEFAULT_SCALE_KG = 0.0283495;

function plannedKg({
  basis,
}: EvidenceOf<"break_and_charge">): { readonly totalKg: number; readonly toWeighKg: number } | null {
  switch (basis.by) {
    case "nameplate":
      return { totalKg: basis.chargeKg, toWeighKg: basis.chargeKg };
    case "replace-removed":
      return { totalKg: basis.removedKg, toWeighKg: basis.removedKg };
    case "factory-and-line-set": {
      const plan = planCharge(basis.factoryChargeKg, {
        rateKgPerM: basis.lineRateKgPerM,
        lengthM: basis.lineLengthM,
        included: { massKg: basis.factoryLineAllowanceKg },
        addersKg: basis.adders.map(({ addKg }) => addKg),
      });
      if (!plan.ok) return null;
      const { totalKg, adjustmentKg } = plan.value;
      return { totalKg, toWeighKg: basis.factoryChargeInUnit ? adjustmentKg : totalKg };
    }
  }
}

/** Superheat and subcooling against their targets; what the weather or the metering device does not allow is not asked. */
function performanceVerdict({ evidence, circuit }: PerformanceQuestion): StepVerdict {
  const stable: VerdictReason[] =
    evidence.ranMinutes < STABLE_MINUTES
      ? [{ code: "not-stable-yet", text: "Let the system run at least 15 minutes before reading." }]
      : [];
  const measured = evidence.suction ?? evidence.liquid ?? evidence.supplyAirC;
  if (measured === null)
    stable.push({ code: "nothing-measured", text: "Read pressures and line temperatures, or the air on both sides." });
  const figures: Record<string, number> = {};
  const remarks: VerdictReason[] = [];
  const refrigerant = findRefrigerant(designationOf(circuit));
  if (refrigerant) {
    for (const check of [superheatCheck(evidence, refrigerant), subcoolingCheck(evidence, refrigerant)]) {
      if (check === null) continue;
      figures[`${check.method}K`] = check.measuredK;
      if (check.targetK === null) continue;
      figures[`${check.method}TargetK`] = check.targetK;
      const judgement = judgeChargeCheck({
        method: check.method,
        measuredK: check.measuredK,
        targetK: check.targetK,
        outdoorDryBulbK: celsiusToKelvin(evidence.outdoorDryBulbC),
        runningS: evidence.ranMinutes * SECONDS_PER_MINUTE,
      });
      if (judgement.verdict === "off-target") remarks.push(...judgement.reasons.map(plainReason));
    }
  }
  const passed = stable.length === 0;
  return {
    outcome: passed ? "passed" : "unproven",
    verdict: !passed ? "incomplete" : remarks.length > 0 ? "off-target" : "complete",
    reasons: [...stable, ...remarks],
    figures,
    rulesVersion: RULES_VERSION,
  };
}
/** @source California RA3.2.2 */
const STABLE_MINUTES = 15;

interface Check {
  readonly method: "superheat" | "subcooling";
  readonly measuredK: number;
  readonly targetK: number | null;
}

function superheatCheck(evidence: EvidenceOf<"performance">, refrigerant: Refrigerant): Check | null {
  if (evidence.suction === null) return null;
  const measured = superheatK(
    refrigerant,
    absolutePa(evidence.suction.kPaGauge, evidence),
    celsiusToKelvin(evidence.suction.lineTemperatureC),
  );
  if (!measured.ok) return null;
  return {
    method: "superheat",
    measuredK: measured.value,
    targetK: evidence.targetSuperheatK ?? tableTargetK(evidence),
  };
}

function tableTargetK(evidence: EvidenceOf<"performance">): number | null {
  if (evidence.metering !== "fixed-orifice" || evidence.indoorWetBulbC === null) return null;
  const target = targetSuperheatK(celsiusToKelvin(evidence.indoorWetBulbC), celsiusToKelvin(evidence.outdoorDryBulbC));
  return target.ok ? target.value : null;
}

function subcoolingCheck(evidence: EvidenceOf<"performance">, refrigerant: Refrigerant): Check | null {
  if (evidence.liquid === null) return null;
  const measured = subcoolingK(
    refrigerant,
    absolutePa(evidence.liquid.kPaGauge, evidence),
    celsiusToKelvin(evidence.liquid.lineTemperatureC),
  );
  return measured.ok ? { method: "subcooling", measuredK: measured.value, targetK: evidence.targetSubcoolingK } : null;
}

function absolutePa(kPaGauge: number, { atmosphericKPa }: EvidenceOf<"performance">): number {
  return toPa(kPaGauge + atmosphericKPa, "kPa");
}

function cylinderAlarms({ evidence, circuit, day }: CylinderQuestion): readonly VerdictReason[] {
  const refrigerant = findRefrigerant(designationOf(circuit));
  if (refrigerant === undefined) return [];
  return evidence.cylinders.flatMap(({ stamp, refrigerant: contents, grossAfterKg }) => {
    if (stamp === null) return [];
    const judgement = judgeCylinderFill({
      tense: "happened",
      refrigerant,
      cylinder: { ...stamp, contents, requalificationDueOn: requalificationDueOn(stamp.requalifiedMonth) },
      grossKg: grossAfterKg,
      date: day,
    });
    return judgement.verdict === "alarm" ? judgement.reasons.map(plainReason) : [];
  });
}

function designationOf(circuit: CircuitFacts | null): string {
  return circuit?.refrigerant.state === "identified" ? circuit.refrigerant.refrigerant : "unknown";
}

function plainReason({ code, text }: VerdictReason): VerdictReason {
  return { code, text };
}

function unproven(code: string, text: string): StepVerdict {
  return {
    outcome: "unproven",
    verdict: "unproven",
    reasons: [{ code, text }],
    figures: {},
    rulesVersion: RULES_VERSION,
  };
}
