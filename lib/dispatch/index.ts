export { andOnCall, formCrews, ON_CALL, type Person, planReturnVisit, TWO_PEOPLE, type UnpairedPerson } from "./crews";
export { layOut } from "./instance";
export { type PlanExchange, type PlanOptions, planDay, runSearch, type SearchProgress } from "./plan-day";
export type {
  DispatchJob,
  DispatchPlan,
  DispatchProblem,
  JobStop,
  Lunch,
  LunchStop,
  Objective,
  OpenJob,
  PromisedStart,
  Route,
  Stop,
  Technician,
  TimeWindow,
} from "./problem";
export { listPromisableWindows, type PromisableWindow } from "./promise-windows";
export { Search } from "./search";
export { SharedPlans } from "./shared-plans";
export {
  type Coordinates,
  estimateTravelSeconds,
  estimateWaySeconds,
  greatCircleKm,
  MIXED_ROADS,
  type RoadProfile,
} from "./travel-estimate";
export { writePlan } from "./write-plan";
