import { type ReactNode, useId } from "react";
import { controlsWords } from "@/lib/words/en/controls";
import { classNames } from "./class-names";
import { StateShape } from "./state-mark";

export type FieldWords = {
  label: ReactNode;
  hint?: ReactNode;
  error?: ReactNode;
  optional?: boolean;
  labelHidden?: boolean;
  className?: string | undefined;
};
export type Wiring = { id: string; "aria-describedby": string | undefined; "aria-invalid": true | undefined };

/**
 * Label, hint and error over one control, which spreads the wiring it is handed: fields beside each other stand on one line by their
 * controls, and no keyboard or list hides what is wrong.
 */
export function Field(props: FieldWords & { id?: string | undefined; children: (wiring: Wiring) => ReactNode }) {
  const { label, hint, error, optional, labelHidden, className } = props;
  const generatedId = useId();
  const id = props.id ?? generatedId;
  return (
    <div className={classNames("grid content-start gap-1", className)}>
      <label id={`${id}-label`} htmlFor={id} className={labelHidden ? "sr-only" : "font-medium"}>
        {label}
        {optional && <span className="font-normal text-ink-soft"> {controlsWords.optional}</span>}
      </label>
      <FieldHint id={id}>{hint}</FieldHint>
      <FieldError id={id}>{error}</FieldError>
      {props.children({ id, ...describe(id, hint, error) })}
    </div>
  );
}

/** The attributes that tie a control, or a group of them, to its hint and its error. */
export function describe(id: string, hint: ReactNode, error: ReactNode) {
  const describedBy = [hint && `${id}-hint`, error && `${id}-error`].filter(Boolean).join(" ");
  return { "aria-describedby": describedBy || undefined, "aria-invalid": error ? (true as const) : undefined };
}

export function FieldHint({ id, children, className }: { id: string; children: ReactNode; className?: string }) {
  if (!children) return null;
  return (
    <p id={`${id}-hint`} className={classNames("text-small text-ink-soft", className)}>
      {children}
    </p>
  );
}

export function FieldError({ id, children, className }: { id: string; children: ReactNode; className?: string }) {
  if (!children) return null;
  return (
    <p
      id={`${id}-error`}
      className={classNames("flex items-baseline gap-1.5 text-small font-medium text-refused", className)}
    >
      <StateShape state="refused" />
      <span>{children}</span>
    </p>
  );
}

/** Splits a field's words from what belongs to the control itself. */
export function splitField<P extends FieldWords>(props: P) {
  const { label, hint, error, optional, labelHidden, className, ...control } = props;
  const words = { label, hint, error, className, ...(optional && { optional }), ...(labelHidden && { labelHidden }) };
  return { words, control };
}
