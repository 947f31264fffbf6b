import * as z from "zod";
import { toKg } from "@/lib/hvac";
import { toGrams } from "@/lib/ledger";
import { ok, type Result } from "@/lib/result";
import { refrigerantName } from "./circuit";
import { requiredNumber } from "./fields";
import { type InvalidFields, invalidFields } from "./form";

/** A day the refrigerant books know. */
export const bookDay = z.iso
  .date("Not a date (year-month-day).")
  .refine((date) => date >= "2000-01-01" && date < "2200-01-01", { error: "The year cannot be right." });

export const massUnit = z.enum(["kg", "lb"]);

/** How much of which refrigerant, as a form asks for it. */
export const massFields = {
  refrigerant: refrigerantName,
  mass: requiredNumber({ over: 0, max: 100_000 }, "Give the mass."),
  massUnit,
};

/** The rest of a form with its mass in whole grams; refused without a refrigerant's name or below a gram. */
export function withGrams<T extends { refrigerant: string; mass: number; massUnit: "kg" | "lb" }>(
  form: T,
): Result<Omit<T, "mass" | "massUnit"> & { grams: number }, InvalidFields> {
  const { mass, massUnit: unit, ...rest } = form;
  if (rest.refrigerant === "") return invalidFields({ refrigerant: "Say which refrigerant." });
  const grams = toGrams(toKg(mass, unit));
  return grams === 0 ? invalidFields({ mass: "Less than a gram." }) : ok({ ...rest, grams });
}
