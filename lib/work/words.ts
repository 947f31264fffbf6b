import { JOB_KINDS } from "@/lib/hvac/procedure";

export const urgencies = ["danger", "today", "soon", "planned"] as const;
export const urgencyWord: Record<(typeof urgencies)[number], string> = {
  danger: "Danger to people or goods",
  today: "Today",
  soon: "In the next days",
  planned: "Planned work",
};

export const jobKinds = [...JOB_KINDS, "unknown"] as const;
export const jobKindWord: Record<(typeof jobKinds)[number], string> = {
  unknown: "Not known yet",
  leak_repair: "Leak repair",
  compressor_change: "Compressor change",
  opened_wet_burnout: "Open to air, wet or burnt out",
  new_install_precharged: "New installation, precharged",
  pump_down_service: "Service on a pumped-down part",
  component_swap_not_opened: "Component swap, circuit not opened",
};
