import { type ComponentProps, useId } from "react";
import { classNames } from "./class-names";
import { describe, FieldError, FieldHint, type FieldWords } from "./field";

/** A yes-or-no with its words as target. */
export function CheckboxField(
  props: Omit<FieldWords, "optional" | "labelHidden"> & Omit<ComponentProps<"input">, keyof FieldWords | "type">,
) {
  const { label, hint, error, className, ...native } = props;
  const generatedId = useId();
  const id = native.id ?? generatedId;
  return (
    <div className={classNames("grid gap-1", className)}>
      <label className="flex min-h-(--control) cursor-pointer items-center gap-3">
        <input
          {...native}
          type="checkbox"
          id={id}
          className="size-5 shrink-0 accent-action"
          {...describe(id, hint, error)}
        />
        <span className="font-medium">{label}</span>
      </label>
      <FieldHint id={id} className="pl-8">
        {hint}
      </FieldHint>
      <FieldError id={id} className="pl-8">
        {error}
      </FieldError>
    </div>
  );
}
