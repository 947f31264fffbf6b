/** The steps of sealed-system work, in their order. */
export const STEP_IDS = [
  "make_safe",
  "recover",
  "open_repair",
  "pressure_test",
  "leak_check",
  "evacuate",
  "hold",
  "break_and_charge",
  "close",
  "performance",
  "records",
] as const;
export type StepId = (typeof STEP_IDS)[number];

/** What kind of sealed-system work a job is; a flammable refrigerant adds to each of them. */
export const JOB_KINDS = [
  "compressor_change",
  "leak_repair",
  "new_install_precharged",
  "component_swap_not_opened",
  "opened_wet_burnout",
  "pump_down_service",
] as const;
export type JobKind = (typeof JOB_KINDS)[number];

export const ROLES = ["dispatcher", "technician", "supervisor", "owner"] as const;
export type Role = (typeof ROLES)[number];
