import type { PressureClass } from "./refrigerants/refrigerant";
import type { Source } from "./rules/source";
import {
  type RecoveryLevel,
  type RecoveryMachineAge,
  RULE_ATMOSPHERE_PA,
  US_MVAC_LIKE_BELOW_ATMOSPHERE_PA,
  US_RECOVERY_SOURCES,
  US_RECOVERY_TABLE,
  US_SMALL_APPLIANCE,
} from "./rules/us-recovery";
import { STANDARD_ATMOSPHERE_PA, toPa } from "./units";

/** The way the duty is met: the table, or one of the rule's own alternatives with the evidence it asks for. */
export type RecoveryRoute =
  | { readonly kind: "table" }
  | { readonly kind: "isolated-part"; readonly isolatedBy: string }
  | {
      readonly kind: "level-unattainable";
      readonly because: "leak" | "contamination";
      /** Where it leaks, or what is in it; words for an auditor. */
      readonly evidence: string;
      readonly soundPartsIsolated: "yes" | "not-possible" | "no";
    }
  | { readonly kind: "found-at-atmosphere"; readonly foundGaugePa: number; readonly evidence: string }
  | { readonly kind: "non-major-repair"; readonly majorPartRemoved: boolean; readonly evacuatedAfterwards: boolean }
  | { readonly kind: "small-appliance"; readonly factorySealed: boolean; readonly compressorWorks: boolean }
  | { readonly kind: "mvac-like" };

export interface RecoveryRecord {
  readonly pressureClass: PressureClass;
  readonly fullChargeKg: number;
  readonly machineAge: RecoveryMachineAge;
  readonly barometerPa: number;
  readonly route: RecoveryRoute;
  /** Lowest pressure reached, as gauge pressure; below the atmosphere it is negative. */
  readonly finalGaugePa: number;
  /** Gauge pressure after waiting with the machine off; absent where nobody waited. */
  readonly afterWaitGaugePa?: number | undefined;
  readonly recoveredKg: number;
}

export type RecoveryReasonCode =
  | "level-reached"
  | "level-not-reached"
  | "above-atmosphere"
  | "rose-while-waiting"
  | "not-watched"
  | "share-recovered"
  | "share-not-recovered"
  | "evidence-missing"
  | "sound-parts-not-isolated"
  | "route-not-open";

export interface RecoveryReason {
  readonly code: RecoveryReasonCode;
  readonly text: string;
}

export interface RecoveryRequirement extends Source {
  /** In the unit of the rule, for the screen. */
  readonly level:
    | RecoveryLevel
    | { readonly value: number; readonly unit: "psig" | "percent-of-charge" | "mmHg-below-atmosphere" };
  /** The same as absolute pressure here and today; null where a share of the charge is asked for. */
  readonly pressureAbsPa: number | null;
}

export interface RecoveryJudgement {
  readonly verdict: "reached" | "not-reached" | "unproven";
  readonly required: RecoveryRequirement;
  readonly reasons: readonly RecoveryReason[];
}

/** The rule rounds the standard atmosphere to 29.9 inHg: a gauge zeroed at 101 325 Pa must not fail by the rounding. */
const ROUNDING_PA = STANDARD_ATMOSPHERE_PA - RULE_ATMOSPHERE_PA;

/** The level the table asks for, in its own unit. @source 40 CFR 82.156(a) Table 1 */
export function requiredRecoveryLevel(
  pressureClass: PressureClass,
  fullChargeKg: number,
  machineAge: RecoveryMachineAge,
): RecoveryLevel {
  const row = US_RECOVERY_TABLE.find(
    (candidate) =>
      candidate.pressureClass === pressureClass &&
      fullChargeKg >= candidate.chargeFromKg &&
      (candidate.chargeBelowKg === null || fullChargeKg < candidate.chargeBelowKg),
  );
  if (row === undefined) throw new RangeError(`no recovery level for ${pressureClass} and ${fullChargeKg} kg`);
  return row.level[machineAge];
}

/** A table level as absolute pressure in Pa; zero vacuum means the gauge at zero, wherever the barometer stands. */
export function recoveryLevelAbsPa(level: RecoveryLevel, barometerPa: number): number {
  if (level.unit === "mmHg-absolute") return toPa(level.value, "mmHg");
  return level.value === 0 ? barometerPa : RULE_ATMOSPHERE_PA - toPa(level.value, "inHg");
}

/**
 * Whether enough refrigerant came out before the circuit may be opened.
 *
 * The last reading counts: what still boils out of oil or liquid raises it, and then the level is not reached.
 * Judged as absolute pressure, so a mountain's thinner air asks for less vacuum on the gauge, as the rule does.
 * @source 40 CFR 82.156; each route names its paragraph
 */
export function judgeRecovery(record: RecoveryRecord): RecoveryJudgement {
  const { route } = record;
  const source = US_RECOVERY_SOURCES[route.kind];
  switch (route.kind) {
    case "table":
      return againstTable(record, source, []);
    case "isolated-part":
      return againstTable(
        record,
        source,
        evidenceReasons(route.isolatedBy, "Say by which valves the part is isolated."),
      );
    case "level-unattainable": {
      const reasons = evidenceReasons(route.evidence, "Say where it leaks or what contaminates it.");
      if (route.soundPartsIsolated === "no")
        reasons.push({
          code: "sound-parts-not-isolated",
          text: "Isolate the sound parts and bring them to the table's level, or say why that is not possible.",
        });
      return againstAtmosphere(record, source, reasons);
    }
    case "found-at-atmosphere": {
      const reasons = evidenceReasons(route.evidence, "Say how the circuit was found empty.");
      if (route.foundGaugePa > 0)
        reasons.push({
          code: "route-not-open",
          text: "It was found above 0 psig, so it is recovered to the table's level.",
        });
      return againstAtmosphere(record, source, reasons);
    }
    case "non-major-repair": {
      const closed = route.majorPartRemoved || route.evacuatedAfterwards || record.pressureClass === "low";
      const text =
        "This way is open only where no compressor, condenser, evaporator or auxiliary heat exchanger comes out, nothing is evacuated to the air afterwards, and the refrigerant is not low-pressure.";
      return againstAtmosphere(record, source, closed ? [{ code: "route-not-open", text }] : []);
    }
    case "small-appliance":
      return smallAppliance(record, route, source);
    case "mvac-like": {
      const level = { value: 102, unit: "mmHg-below-atmosphere" } as const;
      const pressureAbsPa = record.barometerPa - US_MVAC_LIKE_BELOW_ATMOSPHERE_PA;
      return againstLevel(record, { level, pressureAbsPa, ...source }, []);
    }
  }
}

function evidenceReasons(evidence: string, text: string): RecoveryReason[] {
  return evidence.trim() === "" ? [{ code: "evidence-missing", text }] : [];
}

function againstTable(record: RecoveryRecord, source: Source, blocking: readonly RecoveryReason[]): RecoveryJudgement {
  const level = requiredRecoveryLevel(record.pressureClass, record.fullChargeKg, record.machineAge);
  const pressureAbsPa = recoveryLevelAbsPa(level, record.barometerPa);
  return againstLevel(record, { level, pressureAbsPa, ...source }, blocking);
}

function againstAtmosphere(record: RecoveryRecord, source: Source, blocking: readonly RecoveryReason[]) {
  const level = { value: 0, unit: "psig" } as const;
  return againstLevel(record, { level, pressureAbsPa: record.barometerPa, ...source }, blocking);
}

function againstLevel(
  record: RecoveryRecord,
  required: RecoveryRequirement & { readonly pressureAbsPa: number },
  blocking: readonly RecoveryReason[],
): RecoveryJudgement {
  const isVacuum = required.level.unit === "inHg-vacuum" && required.level.value > 0;
  const limitPa = required.pressureAbsPa + (isVacuum ? ROUNDING_PA : 0);
  const lowestPa = record.finalGaugePa + record.barometerPa;
  const lastPa = (record.afterWaitGaugePa ?? record.finalGaugePa) + record.barometerPa;
  // A thousandth of a psi is the arithmetic of unit conversion, not gas.
  const reached = lastPa <= limitPa + 7;
  const reasons = [...blocking];
  if (reached) {
    reasons.push({ code: "level-reached", text: `The required level (${levelText(required)}) is reached.` });
  } else if (lowestPa <= limitPa + 7) {
    reasons.push({
      code: "rose-while-waiting",
      text: "The pressure rose above the level while waiting: refrigerant is still boiling off. Recover on.",
    });
  } else if (required.level.value === 0) {
    reasons.push({ code: "above-atmosphere", text: "The circuit still stands above 0 psig. Recover on." });
  } else {
    reasons.push({ code: "level-not-reached", text: `Recover on: ${levelText(required)} is required.` });
  }
  if (reached && record.afterWaitGaugePa === undefined)
    reasons.push({
      code: "not-watched",
      text: "Wait with the machine off and read again: trapped liquid shows as a rise.",
    });
  if (blocking.length > 0) return { verdict: "unproven", required, reasons };
  return { verdict: reached ? "reached" : "not-reached", required, reasons };
}

function smallAppliance(
  record: RecoveryRecord,
  route: Extract<RecoveryRoute, { kind: "small-appliance" }>,
  source: Source,
): RecoveryJudgement {
  const { maxChargeKg, olderMachineFraction, compressorWorksFraction, compressorDeadFraction, orVacuum } =
    US_SMALL_APPLIANCE;
  const newerFraction = route.compressorWorks ? compressorWorksFraction : compressorDeadFraction;
  const fraction = record.machineAge === "before-1993-11-15" ? olderMachineFraction : newerFraction;
  const required: RecoveryRequirement = {
    level: { value: fraction * 100, unit: "percent-of-charge" },
    pressureAbsPa: null,
    ...source,
  };
  if (!route.factorySealed || record.fullChargeKg > maxChargeKg * (1 + 1e-9)) {
    const text = "Only a factory-sealed appliance of 5 lb or less counts as small: use the table.";
    return { verdict: "unproven", required, reasons: [{ code: "route-not-open", text }] };
  }
  if (record.recoveredKg >= fraction * record.fullChargeKg * (1 - 1e-9)) {
    const text = `At least ${fraction * 100} % of the charge is recovered.`;
    return { verdict: "reached", required, reasons: [{ code: "share-recovered", text }] };
  }
  const byVacuum = againstLevel(
    record,
    { level: orVacuum, pressureAbsPa: recoveryLevelAbsPa(orVacuum, record.barometerPa), ...source },
    [],
  );
  if (byVacuum.verdict === "reached") return byVacuum;
  const text = `Recover ${fraction * 100} % of the charge, or to 4 inHg of vacuum.`;
  return { verdict: "not-reached", required, reasons: [{ code: "share-not-recovered", text }] };
}

function levelText({ level }: RecoveryRequirement): string {
  if (level.unit === "psig" || (level.unit === "inHg-vacuum" && level.value === 0)) return "0 psig";
  if (level.unit === "inHg-vacuum") return `${level.value} inHg of vacuum`;
  if (level.unit === "percent-of-charge") return `${level.value} % of the charge`;
  return `${level.value} mmHg ${level.unit === "mmHg-absolute" ? "absolute" : "below the atmosphere"}`;
}
