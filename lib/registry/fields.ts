import * as z from "zod";
import { err, ok, type Result } from "@/lib/result";

/** Text kept as one line: trimmed, runs of white space made one space. */
export const line = (max: number) =>
  z
    .string()
    .transform((typed) => typed.replace(/\s+/g, " ").trim())
    .pipe(printable.max(max, `At most ${max} characters.`));

export const requiredLine = (max: number, whenMissing: string) =>
  line(max).refine((text) => text !== "", { error: whenMissing });

/** Text of several lines, with one kind of line end. */
export const paragraph = (max: number) =>
  z
    .string()
    .transform((typed) => typed.replace(/\r\n?/g, "\n").trim())
    .pipe(printable.max(max, `At most ${max} characters.`));

// PostgreSQL cannot hold NUL in text, and no other control character was typed on purpose.
const printable = z
  .string()
  // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is refused
  .regex(/^[^\u0000-\u0008\u000b-\u001f\u007f]*$/, "Contains a character that cannot be printed.");

export const email = z.union([
  z.literal(""),
  z.string().trim().toLowerCase().max(320).pipe(z.email("Not a complete e-mail address (name@place).")),
]);

export type NumberError = { code: "not-a-number" } | { code: "comma-reads-two-ways" };

/** The number as a person writes it: point or comma for decimals, no exponent, no grouping. */
export function parseTypedNumber(typed: string): Result<number, NumberError> {
  const text = typed.trim();
  if (/^-?\d{1,3}(,\d{3})+(\.\d*)?$/.test(text)) return err({ code: "comma-reads-two-ways" });
  const plain = text.replace(",", ".");
  return /^[+-]?(\d{1,15}(\.\d{0,15})?|\.\d{1,15})$/.test(plain) ? ok(Number(plain)) : err({ code: "not-a-number" });
}

interface Range {
  readonly min?: number;
  readonly over?: number;
  readonly max: number;
  readonly whole?: boolean;
}

/** A number as typed, or null where nothing was. */
export const optionalNumber = (range: Range) =>
  z.string().transform((typed, context): number | null => {
    if (typed.trim() === "") return null;
    const number = parseTypedNumber(typed);
    const wrong = number.ok ? outside(number.value, range) : numberWords(number.error);
    if (wrong === null && number.ok) return number.value;
    context.addIssue({ code: "custom", message: wrong ?? "" });
    return z.NEVER;
  });

export const requiredNumber = (range: Range, whenMissing: string) =>
  optionalNumber(range).transform((value, context): number => {
    if (value !== null) return value;
    context.addIssue({ code: "custom", message: whenMissing });
    return z.NEVER;
  });

function numberWords(error: NumberError): string {
  switch (error.code) {
    case "not-a-number":
      return "Not a number.";
    case "comma-reads-two-ways":
      return "The comma can be read two ways. Write 1200 or 1.2.";
  }
}

function outside(value: number, { min, over, max, whole }: Range): string | null {
  if (whole && !Number.isInteger(value)) return "A whole number, please.";
  if (over !== undefined && !(value > over)) return `Must be more than ${over}.`;
  if (min !== undefined && !(value >= min)) return `Must be at least ${min}.`;
  return value <= max ? null : `Must be at most ${max}.`;
}

/** A calendar date (2026-11-25), or null where nothing was typed. */
export const optionalDate = z
  .union([z.literal(""), z.iso.date("Not a date (year-month-day).")])
  .refine((date) => date === "" || (date >= "1900-01-01" && date < "2200-01-01"), {
    error: "The year cannot be right.",
  })
  .transform((date) => (date === "" ? null : date));

/** An IANA time zone this machine knows; offsets such as +02:00 are refused because they know no summer time. */
export const timeZone = z
  .string()
  .trim()
  .refine(knowsZone, { error: "Not a known time zone, such as America/Denver." });

function knowsZone(zone: string): boolean {
  if (!/^[A-Za-z]+\/[A-Za-z0-9_+/-]+$|^UTC$/.test(zone)) return false;
  try {
    new Intl.DateTimeFormat("en-US", { timeZone: zone });
    return true;
  } catch {
    return false;
  }
}

/** A box that is ticked or not: browsers leave it out when not. */
export const tick = z
  .literal("on")
  .optional()
  .transform((value) => value === "on");

/** One of the given, where the empty choice means none. */
export const optionalId = <T extends z.ZodType<string>>(id: T) =>
  z.union([z.literal("").transform(() => null), id], { error: "Choose one from the list." });
