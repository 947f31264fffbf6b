export { type Caution, cautionsFor, DEFERRAL_LINE } from "./cautions";
export {
  cyclesForFraction,
  type DilutionCycle,
  type DilutionPlan,
  judgePumpOil,
  type PumpOil,
  type PumpOilJudgement,
  planDilution,
  TRIPLE_EVACUATION,
} from "./evacuation-plan";
export {
  chargeForCarbonDioxideEquivalentKg,
  type EuLeakCheckCase,
  type EuLeakCheckPlan,
  euGasList,
  euRecheckAfterRepair,
  nextEuLeakCheck,
  planEuLeakChecks,
} from "./leak-checks-eu";
export {
  judgeLeakRate,
  type LeakDuty,
  type LeakRateCase,
  type LeakRateJudgement,
  leakDetectionDueBy,
  type VerificationRecord,
  type VerificationState,
  verificationState,
} from "./leak-duties";
export {
  annualizedLeakRate,
  type LeakRateError,
  leakRulePart,
  rollingLeakRate,
  type TopUp,
} from "./leak-rate";
export {
  CHARGE_CHECK,
  CHARGE_CHECK_SOURCES,
  CHARGE_SCALE_ACCURACY_KG,
} from "./rules/charging";
export { CYLINDER_RULE, CYLINDER_SOURCES } from "./rules/cylinders";
export { EU_CHECK_BANDS, EU_DETECTION_FROM, EU_RECHECK, EU_SOURCES, type EuGasList } from "./rules/eu-leak-checks";
export {
  DEFAULT_STEADY_RISE_PA_PER_S,
  EVACUATION_CRITERIA,
  type EvacuationCriterion,
  findEvacuationCriterion,
} from "./rules/evacuation-criteria";
export { type FlammableEdition, RELEASE_HEIGHT_M, type UnitPlace } from "./rules/flammable-charge";
export { FIELD_DRIER_KG, LINE_RATES_R32_DUCTLESS, LINE_RATES_R410A, LINE_RATES_SOURCE } from "./rules/line-rates";
export {
  CUSTOMARY_TEST_PRESSURES,
  CUSTOMARY_TEST_SOURCE,
  PRESSURE_STEPS_GAUGE_PA,
  PRESSURE_TEST_RULES,
  type PressureTestRule,
} from "./rules/pressure-tests";
export { defaultEvacuationCriterion, RULE_SETS, type RuleSet, type RuleSetId } from "./rules/rule-sets";
export type { Mark, Source } from "./rules/source";
export {
  CHRONIC_LEAK,
  LEAK_DEADLINES,
  LEAK_DETECTION,
  LEAK_TRIGGER_FRACTION,
  type LeakRulePart,
  type LeakUse,
} from "./rules/us-leak";
export {
  type RecoveryLevel,
  type RecoveryMachineAge,
  US_RECOVERY_SOURCES,
  US_RECOVERY_TABLE,
} from "./rules/us-recovery";
