import type { Role } from "@/lib/auth/roles";
import type { RefrigerantState, VolumeBasis } from "@/lib/registry/circuit";
import type { MissingForVolume } from "@/lib/registry/circuit-volume";
import type { RuleSet } from "@/lib/registry/company";
import type { CylinderContents } from "@/lib/registry/cylinder";
import type { ApplianceKind } from "@/lib/registry/equipment";
import type { CertificateKind } from "@/lib/registry/member";
import type { ToolKind } from "@/lib/registry/tool";

export const roleWord: Record<Role, string> = {
  dispatcher: "Dispatcher",
  technician: "Technician",
  supervisor: "Supervisor",
  owner: "Owner",
};

export const applianceKindWord: Record<ApplianceKind, string> = {
  comfort_cooling: "Comfort cooling and heat pumps",
  commercial_refrigeration: "Commercial refrigeration",
  industrial_process_refrigeration: "Industrial process refrigeration",
  refrigerated_transport: "Refrigerated transport",
  small_appliance: "Small appliance, factory sealed, 5 lb or less",
  other: "Other",
};

export const refrigerantStateWord: Record<RefrigerantState, string> = {
  identified: "Identified, as on the nameplate or named here",
  retrofitted: "Retrofitted to another one",
  mixed: "Mixed",
  unknown: "Not known yet",
};

export const volumeBasisWord: Record<VolumeBasis, string> = {
  stated: "Stated by the maker",
  measured: "Measured",
  estimated: "Estimated from charge and lines",
  unknown: "Not known",
};

export const missingForVolumeWord: Record<MissingForVolume, string> = {
  "nameplate-refrigerant": "the nameplate refrigerant",
  "refrigerant-data": "density data for this refrigerant (none here)",
  "factory-charge": "the factory charge",
  "factory-line-length": "the line length the factory charged for",
  "line-sizes": "both line sizes",
};

export const toolKindWord: Record<ToolKind, string> = {
  pump: "Vacuum pump",
  "vacuum-gauge": "Vacuum gauge",
  "pressure-gauge": "Pressure gauge",
  thermometer: "Thermometer",
  "recovery-machine": "Recovery machine",
  scale: "Scale",
  "leak-detector": "Leak detector",
  hoses: "Hoses",
  regulator: "Nitrogen regulator",
  other: "Other tool",
};

export const cylinderContentsWord: Record<CylinderContents, string> = {
  new: "New refrigerant",
  recovered: "Recovered",
  reclaimed: "Reclaimed",
  "mixed-or-unknown": "Mixed or not known",
  empty: "Empty",
};

export const certificateKindWord: Record<CertificateKind, string> = {
  "us-type-1": "EPA 608 Type I (small appliances)",
  "us-type-2": "EPA 608 Type II (medium to very high pressure)",
  "us-type-3": "EPA 608 Type III (low pressure)",
  "us-universal": "EPA 608 Universal",
  "eu-a1": "EU A1",
  "eu-a2": "EU A2",
  "eu-b": "EU B",
  "eu-c": "EU C",
  "eu-d": "EU D",
  "eu-e": "EU E",
  flammables: "Competence for flammable refrigerants",
};

export const ruleSetWord: Record<RuleSet, string> = {
  us: "United States (40 CFR 82 and 84)",
  eu: "European Union (Regulation 2024/573)",
};

/** A record of words as choices of a list. */
export function choicesOf<K extends string>(words: Record<K, string>, keys = Object.keys(words) as K[]) {
  return keys.map((value) => ({ value, label: words[value] }));
}
