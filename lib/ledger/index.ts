export { contentAfterJob, foundShortGrams } from "./content-after-job";
export {
  type BookException,
  type CircuitToCheck,
  type CylinderToCheck,
  findExceptions,
  SCALE_TOLERANCE_GRAMS,
} from "./exceptions";
export { type JobGround, type JobLine, jobLines, reconcile, type StandingLine } from "./job-lines";
export {
  type CylinderInBooks,
  type Fill,
  type Objection,
  type ObjectionCode,
  objectionsToDraw,
  objectionsToFill,
  totalGrams,
} from "./objections";
export { circuit, cylinder, idOf, PLACE_KINDS, type Place, type PlaceKind, placeKey, samePlace } from "./place";
export {
  balancesOf,
  CAUSES,
  type Cause,
  MIXED,
  movement,
  type Posting,
  reversalOf,
  toGrams,
  UNKNOWN,
} from "./posting";
