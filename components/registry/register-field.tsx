import { useId } from "react";
import { CheckboxField } from "@/components/ui/checkbox-field";
import { describe, FieldError, FieldHint } from "@/components/ui/field";
import { type Choice, SelectField } from "@/components/ui/select-field";
import { DateTimeField, NumberInput, TextArea, TextInput } from "@/components/ui/text-input";

/** One field of a register's form, as data: a page on the server can say what it asks for. */
export interface FieldSpec {
  readonly name: string;
  readonly label: string;
  readonly kind: "text" | "email" | "phone" | "area" | "number" | "date" | "select" | "tick" | "ticks";
  readonly hint?: string;
  readonly optional?: boolean;
  readonly unit?: string;
  readonly choices?: readonly Choice[];
  readonly emptyChoice?: string;
  /** Names offered while typing; anything else may be typed too. */
  readonly suggestions?: readonly string[];
  readonly wide?: boolean;
  /** Shown only while another field holds one of these values. */
  readonly when?: { readonly field: string; readonly is: readonly string[] };
}
export type Values = Readonly<Record<string, string | readonly string[] | undefined>>;

export function RegisterField(props: {
  field: FieldSpec;
  value: string | readonly string[] | undefined;
  error: string | undefined;
}) {
  const { field, value, error } = props;
  const listId = useId();
  const text = typeof value === "string" ? value : "";
  const words = {
    label: field.label,
    name: field.name,
    ...(field.hint && { hint: field.hint }),
    ...(field.optional && { optional: true }),
    ...(error && { error }),
    className: field.wide || field.kind === "area" || field.kind === "ticks" ? "wide:col-span-2" : undefined,
  };
  switch (field.kind) {
    case "text":
      return (
        <>
          <TextInput {...words} defaultValue={text} autoComplete="off" {...(field.suggestions && { list: listId })} />
          {field.suggestions && (
            <datalist id={listId}>
              {field.suggestions.map((each) => (
                <option key={each} value={each} />
              ))}
            </datalist>
          )}
        </>
      );
    case "email":
      return <TextInput {...words} defaultValue={text} type="email" inputMode="email" autoComplete="off" />;
    case "phone":
      return <TextInput {...words} defaultValue={text} type="tel" inputMode="tel" autoComplete="off" />;
    case "area":
      return <TextArea {...words} defaultValue={text} rows={3} />;
    case "number":
      return <NumberInput {...words} defaultValue={text} unit={field.unit ?? ""} />;
    case "date":
      return <DateTimeField {...words} defaultValue={text} kind="date" />;
    case "select":
      return (
        <SelectField
          {...words}
          defaultValue={text}
          choices={field.choices ?? []}
          {...(field.emptyChoice !== undefined && { emptyChoice: field.emptyChoice })}
        />
      );
    case "tick":
      return <CheckboxField {...words} defaultChecked={text === "on"} />;
    case "ticks":
      return <Ticks field={field} chosen={Array.isArray(value) ? value : []} error={error} />;
  }
}

function Ticks(props: { field: FieldSpec; chosen: readonly string[]; error: string | undefined }) {
  const { field, chosen, error } = props;
  const id = useId();
  const described = describe(id, field.hint, error);
  return (
    <fieldset className="wide:col-span-2" aria-describedby={described["aria-describedby"]}>
      <legend className="font-medium">{field.label}</legend>
      <FieldHint id={id}>{field.hint}</FieldHint>
      <div className="flex flex-wrap gap-x-6">
        {field.choices?.map((choice, index) => (
          <label key={choice.value} className="flex min-h-(--control) cursor-pointer items-center gap-2">
            <input
              type="checkbox"
              name={field.name}
              value={choice.value}
              defaultChecked={chosen.includes(choice.value)}
              disabled={choice.disabled}
              aria-invalid={index === 0 ? described["aria-invalid"] : undefined}
              className="size-5 accent-action"
            />
            {choice.label}
          </label>
        ))}
      </div>
      <FieldError id={id}>{error}</FieldError>
    </fieldset>
  );
}
