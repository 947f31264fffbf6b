import * as z from "zod";
import { err, type Result } from "@/lib/result";
import { findRefrigerant } from "../refrigerants/refrigerant";
import type { SaturationError } from "../refrigerants/saturation";
import { fromPa, kelvinToCelsius } from "../units";

/** Why a well-formed question has no answer, and which of its fields is to blame. */
export interface Refusal {
  readonly code: string;
  readonly path: string;
  readonly message: string;
}
export type Answer<T> = Result<T, Refusal>;

export const questionId = z.union([z.string().max(200), z.number()]);
/** Nothing weighed or measured is smaller than a millionth; below it arithmetic only ends in infinities. */
export const positive = z.number().min(1e-6).max(1e9);
export const nonNegative = z.number().nonnegative().max(1e9);
export const atmosphericKPa = z.number().min(40).max(115);
export const calendarDay = z.iso.date();

const UNKNOWN_REFRIGERANT = { message: "unknown refrigerant", params: { code: "unknown-refrigerant" } };

/** A designation the product knows. */
export const knownDesignation = z.string().refine((name) => findRefrigerant(name) !== undefined, UNKNOWN_REFRIGERANT);

/** A designation the product knows, turned into its data. */
export const knownRefrigerant = z.string().transform((name, context) => {
  const refrigerant = findRefrigerant(name);
  if (refrigerant !== undefined) return refrigerant;
  context.addIssue({ code: "custom", ...UNKNOWN_REFRIGERANT });
  return z.NEVER;
});

export function refuse(code: string, path: string, message: string): Result<never, Refusal> {
  return err({ code, path, message });
}

/** Says the range of the correlation in the unit of the field that left it. */
export function refuseSaturation(error: SaturationError, path: string): Result<never, Refusal> {
  const round = (value: number) => Number(value.toPrecision(6));
  if (error.code === "temperature-outside-correlation") {
    const [from, to] = [round(kelvinToCelsius(error.fromK)), round(kelvinToCelsius(error.toK))];
    return refuse(error.code, path, `the correlation holds from ${from} to ${to} C`);
  }
  const [from, to] = [round(fromPa(error.fromPa, "kPa")), round(fromPa(error.toPa, "kPa"))];
  return refuse(error.code, path, `the correlation holds from ${from} to ${to} kPa absolute`);
}
