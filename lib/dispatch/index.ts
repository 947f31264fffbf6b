export { layOut } from "./instance";
export { type PlanExchange, type PlanOptions, planDay, runSearch, type SearchProgress } from "./plan-day";
export { describeDifference } from "./plan-difference";
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
export { writePlan } from "./write-plan";
