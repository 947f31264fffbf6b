export { type HoldWire, holdFromWire, holdToWire, holdWire } from "./hold/schema";
export { criteriaRow } from "./log/criteria-schema";
export { entryWire, stepRecordedBody } from "./log/schema";
export {
  type PressureTestWire,
  pressureTestFromWire,
  pressureTestToWire,
  pressureTestWire,
} from "./pressure-test/schema";
export { type PulldownWire, pulldownFromWire, pulldownToWire, pulldownWire } from "./pulldown/schema";
export { type Answer, knownRefrigerant, type Refusal } from "./wire/answer";
export { answerCautions, cautionsQuestion } from "./wire/cautions";
export {
  answerCharge,
  answerRoomCharge,
  answerSubcooling,
  answerSuperheat,
  chargeQuestion,
  roomChargeQuestion,
  subcoolingQuestion,
  superheatQuestion,
} from "./wire/charge";
export { answerPumpOil, answerTripleEvacuation, pumpOilQuestion, tripleEvacuationQuestion } from "./wire/evacuation";
export {
  answerEuLeakCheck,
  answerLeakRate,
  answerLeakSize,
  answerVerification,
  euLeakCheckQuestion,
  leakRateQuestion,
  leakSizeQuestion,
  verificationQuestion,
} from "./wire/leak-duties";
export { answerCylinder, answerRecovery, cylinderQuestion, recoveryQuestion } from "./wire/recovery";
export { answerSaturation, answerWater, saturationQuestion, waterQuestion } from "./wire/saturation";
