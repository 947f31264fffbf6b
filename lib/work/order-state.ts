import { err, ok, type Result } from "@/lib/result";
import { hasEnded, type VisitState } from "./visit-state";

export interface OrderParts {
  state: "open" | "done" | "cancelled";
  visits: readonly { state: VisitState }[];
  jobs: readonly { number: number; closed: boolean; hasFieldWork: boolean }[];
}

export type OrderRefusal =
  | { code: "not-open" }
  | { code: "visit-under-way" }
  | { code: "jobs-not-closed"; numbers: readonly number[] }
  | { code: "field-work-recorded"; numbers: readonly number[] };

/** A work order is done when nothing of it is under way and every sealed-system job of it is proven and closed. */
export function mayFinish(order: OrderParts): Result<null, OrderRefusal> {
  if (order.state !== "open") return err({ code: "not-open" });
  if (!order.visits.every((visit) => hasEnded(visit.state))) return err({ code: "visit-under-way" });
  const open = order.jobs.filter((job) => !job.closed).map((job) => job.number);
  return open.length > 0 ? err({ code: "jobs-not-closed", numbers: open }) : ok(null);
}

/** A work order can be cancelled while nobody is there and no circuit has been worked on. */
export function mayCancel(order: OrderParts): Result<null, OrderRefusal> {
  if (order.state !== "open") return err({ code: "not-open" });
  if (order.visits.some((visit) => visit.state === "on-site")) return err({ code: "visit-under-way" });
  const touched = order.jobs.filter((job) => job.hasFieldWork).map((job) => job.number);
  return touched.length > 0 ? err({ code: "field-work-recorded", numbers: touched }) : ok(null);
}
