import * as z from "zod";
import { line, optionalNumber, requiredLine } from "./fields";

/** @source 40 CFR 82.152 and 82.157: the leak-repair rule's kinds of appliance; small appliance is its 5 lb definition */
export const APPLIANCE_KINDS = [
  "comfort_cooling",
  "commercial_refrigeration",
  "industrial_process_refrigeration",
  "refrigerated_transport",
  "small_appliance",
  "other",
] as const;
export type ApplianceKind = (typeof APPLIANCE_KINDS)[number];

/** A unit as its nameplate names it; maker, model and serial are free text because nameplates follow no rule. */
export const equipmentForm = z.strictObject({
  name: requiredLine(200, "Give the unit a name, such as RTU-3 or walk-in cooler."),
  maker: line(200),
  model: line(200),
  serial: line(200),
  yearMade: optionalNumber({ min: 1900, max: 2100, whole: true }),
  place: line(300),
  applianceKind: z.enum(APPLIANCE_KINDS),
});
export type EquipmentFields = z.output<typeof equipmentForm>;
