import type { ComponentProps } from "react";
import { Field, type FieldWords, splitField } from "./field";

export type Choice = { value: string; label: string; disabled?: boolean };

/** A short list to choose from, by the browser's own control. Over a dozen choices: use Finder. */
export function SelectField(
  props: FieldWords &
    Omit<ComponentProps<"select">, keyof FieldWords | "children"> & {
      choices: readonly Choice[];
      emptyChoice?: string;
    },
) {
  const { words, control } = splitField(props);
  const { choices, emptyChoice, ...native } = control;
  return (
    <Field {...words} id={native.id}>
      {(wiring) => (
        <select {...native} {...wiring} className="control">
          {emptyChoice !== undefined && <option value="">{emptyChoice}</option>}
          {choices.map((choice) => (
            <option key={choice.value} value={choice.value} disabled={choice.disabled}>
              {choice.label}
            </option>
          ))}
        </select>
      )}
    </Field>
  );
}
