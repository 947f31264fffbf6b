export {
  type Addition,
  type Bearer,
  byDueDay,
  type CircuitUnderLaw,
  type Duty,
  type DutyCode,
  LAW_EVENTS,
  type LawEvent,
  type LawEventKind,
  LEAK_RATE_METHODS,
  type LeakRateAt,
  type LeakRateMethod,
  type Standing,
} from "./duty";
export { standingUnderEu } from "./eu";
export { withoutSeasonalReturns } from "./seasonal";
export { standingUnderUs } from "./us";
export { BEARER_WORDS, DEFERRAL, DUTY_WORDS, MARK_WORDS } from "./words";
