import dynamic from "next/dynamic";
import type { ComponentType } from "react";
import type { StepId } from "@/lib/hvac/procedure";
import type { StepFormProps } from "../job/evidence-form";

/** The form of each step, fetched when it is first opened. */
export const stepForms: Record<StepId, ComponentType<StepFormProps>> = {
  make_safe: dynamic(() => import("./make-safe-form").then((part) => part.MakeSafeForm)),
  recover: dynamic(() => import("./recover-form").then((part) => part.RecoverForm)),
  open_repair: dynamic(() => import("./open-repair-form").then((part) => part.OpenRepairForm)),
  pressure_test: dynamic(() => import("./pressure-test-form").then((part) => part.PressureTestForm)),
  leak_check: dynamic(() => import("./leak-check-form").then((part) => part.LeakCheckForm)),
  evacuate: dynamic(() => import("./evacuate-form").then((part) => part.EvacuateForm)),
  hold: dynamic(() => import("./hold-form").then((part) => part.HoldForm)),
  break_and_charge: dynamic(() => import("./charge-form").then((part) => part.ChargeForm)),
  close: dynamic(() => import("./close-form").then((part) => part.CloseForm)),
  performance: dynamic(() => import("./performance-form").then((part) => part.PerformanceForm)),
  records: dynamic(() => import("./records-form").then((part) => part.RecordsForm)),
};

/** Fetches every step's form ahead where the program is not kept on the device, so that the job goes on without a network. */
export function fetchStepForms(): void {
  if (navigator.serviceWorker?.controller) return;
  void Promise.all([
    import("./make-safe-form"),
    import("./recover-form"),
    import("./open-repair-form"),
    import("./pressure-test-form"),
    import("./leak-check-form"),
    import("./evacuate-form"),
    import("./hold-form"),
    import("./charge-form"),
    import("./close-form"),
    import("./performance-form"),
    import("./records-form"),
    import("@/lib/hvac/schema"),
    import("./import-readings"),
  ]).catch(() => undefined); // no network: they are fetched when opened
}
