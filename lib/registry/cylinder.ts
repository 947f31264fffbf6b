import * as z from "zod";
import { toKg } from "@/lib/hvac/units";
import { PersonId } from "@/lib/ids";
import { refrigerantName } from "./circuit";
import { optionalDate, optionalId, requiredLine, requiredNumber, tick } from "./fields";

export const CYLINDER_CONTENTS = ["new", "recovered", "reclaimed", "mixed-or-unknown", "empty"] as const;
export type CylinderContents = (typeof CYLINDER_CONTENTS)[number];

/** A cylinder as the office types it, masses in the unit chosen; one cylinder holds one refrigerant. */
export const cylinderForm = z
  .strictObject({
    massUnit: z.enum(["kg", "lb"]),
    label: requiredLine(100, "Give the number or mark it is known by."),
    contents: z.enum(CYLINDER_CONTENTS),
    refrigerant: refrigerantName.default(""), // not asked of a mixture
    waterCapacity: requiredNumber({ over: 0, max: 5_000 }, "Stamped as WC on the collar."),
    tare: requiredNumber({ over: 0, max: 5_000 }, "Stamped as TW on the collar."),
    contentsMass: requiredNumber({ min: 0, max: 5_000 }, "Write 0 for none."),
    requalifyBy: optionalDate,
    forFlammables: tick,
    refillable: tick,
    heldBy: optionalId(PersonId),
  })
  .transform((wire, context) => {
    const issue = (field: string, message: string) => context.addIssue({ code: "custom", path: [field], message });
    const named = wire.contents !== "empty" && wire.contents !== "mixed-or-unknown";
    if (named && wire.refrigerant === "") issue("refrigerant", "Say which refrigerant it holds.");
    if (wire.contents === "empty" && wire.contentsMass > 0) issue("contentsMass", "An empty cylinder holds nothing.");
    if (wire.contents === "recovered" && !wire.refillable)
      issue("refillable", "A cylinder that may not be refilled cannot take recovered refrigerant (49 CFR 173.304a).");
    return {
      label: wire.label,
      contents: wire.contents,
      refrigerant: wire.contents === "mixed-or-unknown" ? null : wire.refrigerant || null,
      waterCapacityKg: toKg(wire.waterCapacity, wire.massUnit),
      tareKg: toKg(wire.tare, wire.massUnit),
      contentsKg: toKg(wire.contentsMass, wire.massUnit),
      requalifyBy: wire.requalifyBy,
      forFlammables: wire.forFlammables,
      refillable: wire.refillable,
      heldBy: wire.heldBy,
    };
  });
export type CylinderFields = z.output<typeof cylinderForm>;
