export { addDays, addMonths, daysBetween } from "./calendar-day";
export { type Caution, cautionsFor, DEFERRAL_LINE } from "./cautions";
export {
  type ChargeCheck,
  type ChargeCheckJudgement,
  judgeChargeCheck,
} from "./charge/charge-check";
export {
  judgeRoomCharge,
  leastRoomAreaM2,
  type RoomCharge,
  type RoomChargeJudgement,
  type RoomChargeLimits,
  roomChargeLimits,
} from "./charge/flammable-charge";
export {
  type ChargePlan,
  type ChargePlanError,
  judgeWeighedCharge,
  type LineSet,
  liquidFullLineKgPerM,
  planCharge,
  type WeighedCharge,
} from "./charge/line-set";
export { glideK, subcoolingK, superheatK } from "./charge/superheat";
export { ruleOfThumbSuperheatK, type TargetSuperheatError, targetSuperheatK } from "./charge/target-superheat";
export { wetBulbK } from "./charge/wet-bulb";
export {
  type Cylinder,
  type CylinderFill,
  type CylinderJudgement,
  type CylinderLimit,
  type CylinderReasonCode,
  cylinderLimit,
  judgeCylinderFill,
  maxCylinderFillKg,
  requalificationDueOn,
} from "./cylinder";
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
export { HOLD_RULES_VERSION, judgeHold, type RunningHold, startHold } from "./hold/judge-hold";
export type { HoldAction, HoldJudgement, HoldReason, HoldReasonCode, HoldVerdict } from "./hold/judgement";
export type { HoldCriteria, HoldGauge, HoldReading, HoldRecord, HoldTerms } from "./hold/record";
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
export { estimateLeakSize, fromPaM3PerS, type LeakSize, type ThroughputUnit } from "./leak-size";
export { nitrogenPressureAtTemperaturePa } from "./nitrogen";
export { judgePressureTest } from "./pressure-test/judge-pressure-test";
export {
  allowableLeakPaPerS,
  coarsestUsefulStepPa,
  expectedGaugePa,
  shortestUsefulHoldS,
  smallestLeakShownPaM3PerS,
  smallestPressureChangePa,
} from "./pressure-test/plan-pressure-test";
export type {
  PressureTestJudgement,
  PressureTestReading,
  PressureTestReason,
  PressureTestRecord,
  PressureTestVerdict,
} from "./pressure-test/record";
export { judgeProof, type Proof, type ProofFacts, type ProofLimit, type Strength } from "./proof/judge-proof";
export { compareRigs, type Rig, type RigTimes } from "./pulldown/compare-rigs";
export { judgePulldown } from "./pulldown/judge-pulldown";
export type {
  PulldownFinding,
  PulldownJudgement,
  PulldownReading,
  PulldownReason,
  PulldownRecord,
} from "./pulldown/record";
export {
  judgeRecovery,
  type RecoveryJudgement,
  type RecoveryReason,
  type RecoveryReasonCode,
  type RecoveryRecord,
  type RecoveryRequirement,
  type RecoveryRoute,
  recoveryLevelAbsPa,
  requiredRecoveryLevel,
} from "./recovery";
export {
  carbonDioxideEquivalentT,
  GWP_SET_SOURCES,
  type GwpSet,
  globalWarmingPotential,
} from "./refrigerants/global-warming";
export {
  findRefrigerant,
  isFlammable,
  listRefrigerants,
  type PressureClass,
  type Refrigerant,
  type SafetyClass,
} from "./refrigerants/refrigerant";
export {
  bubblePressurePa,
  bubbleTemperatureK,
  dewPressurePa,
  dewTemperatureK,
  liquidDensityKgPerM3,
  type SaturationError,
  saturationRangeK,
  saturationSource,
  vapourDensityKgPerM3,
} from "./refrigerants/saturation";
export {
  CHARGE_CHECK,
  CHARGE_CHECK_SOURCES,
  CHARGE_SCALE_ACCURACY_KG,
  FIELD_DRIER_KG,
  LINE_RATES_R32_DUCTLESS,
  LINE_RATES_R410A,
  LINE_RATES_SOURCE,
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
export {
  celsiusToKelvin,
  fromKelvin,
  fromKelvinDifference,
  fromKg,
  fromMetre,
  fromPa,
  kelvinToCelsius,
  type LengthUnit,
  type MassUnit,
  micronToPa,
  type PressureUnit,
  paToMicron,
  STANDARD_ATMOSPHERE_PA,
  type TemperatureUnit,
  toKelvin,
  toKelvinDifference,
  toKg,
  toMetre,
  toPa,
} from "./units";
export {
  saturationPressurePa,
  saturationTemperatureK,
  WATER_TRIPLE_POINT,
  type WaterPhase,
  waterPhase,
} from "./water";
