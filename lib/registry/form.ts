import type * as z from "zod";
import { err, ok, type Result } from "@/lib/result";

/** What is wrong, by the name of the field; under "" what is wrong with the form as a whole. */
export type FieldErrors = Readonly<Record<string, string>>;
export type InvalidFields = { readonly code: "invalid-fields"; readonly fields: FieldErrors };

export function invalidFields(fields: FieldErrors): { readonly ok: false; readonly error: InvalidFields } {
  return err({ code: "invalid-fields", fields } as const);
}

/**
 * A posted form as its schema reads it, or the first thing wrong with each field.
 * The company and what the framework adds are the page's own and left out; `lists` names the fields that may come many times.
 */
export function readForm<S extends z.ZodType>(
  form: FormData,
  schema: S,
  lists: readonly string[] = [],
): Result<z.output<S>, InvalidFields> {
  const posted: Record<string, unknown> = {};
  for (const key of new Set(form.keys())) {
    if (key === "company" || key.startsWith("$ACTION")) continue;
    const values = form.getAll(key);
    posted[key] = lists.includes(key) ? values : values.length === 1 ? values[0] : values;
  }
  for (const key of lists) posted[key] ??= [];
  return readFields(posted, schema);
}

/** The value of a field that names the thing changed, taken out of the fields that change it. */
export function take(form: FormData, name: string): FormDataEntryValue | null {
  const value = form.get(name);
  form.delete(name);
  return value;
}

export function readFields<S extends z.ZodType>(fields: unknown, schema: S): Result<z.output<S>, InvalidFields> {
  const parsed = schema.safeParse(fields);
  if (parsed.success) return ok(parsed.data);
  const errors: Record<string, string> = {};
  for (const issue of parsed.error.issues) errors[String(issue.path[0] ?? "")] ??= words(issue);
  return invalidFields(errors);
}

function words(issue: z.core.$ZodIssue): string {
  switch (issue.code) {
    case "unrecognized_keys":
      return `The form holds something this page does not know (${issue.keys.join(", ")}). Load the page again.`;
    case "invalid_type":
      return "Missing, or not of the kind asked for.";
    case "invalid_value":
      return "Choose one from the list.";
    default:
      return issue.message;
  }
}
