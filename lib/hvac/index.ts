export { addDays, addMonths, daysBetween } from "./calendar-day";
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
export { HOLD_RULES_VERSION, judgeHold, type RunningHold, startHold } from "./hold/judge-hold";
export type { HoldAction, HoldJudgement, HoldReason, HoldReasonCode, HoldVerdict } from "./hold/judgement";
export type { HoldCriteria, HoldGauge, HoldReading, HoldRecord, HoldTerms } from "./hold/record";
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
export type { Mark, Source } from "./rules/source";
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
