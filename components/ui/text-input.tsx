import type { ComponentProps } from "react";
import { classNames } from "./class-names";
import { Field, type FieldWords, splitField } from "./field";

type Native<Tag extends "input" | "textarea"> = Omit<ComponentProps<Tag>, keyof FieldWords>;

/** One line of text with its label. */
export function TextInput(props: FieldWords & Native<"input">) {
  const { words, control } = splitField(props);
  return (
    <Field {...words} id={control.id}>
      {(wiring) => <input type="text" {...control} {...wiring} className="control" />}
    </Field>
  );
}

/** Several lines of text; grows with what is typed where the browser can. */
export function TextArea(props: FieldWords & Native<"textarea"> & { mono?: boolean }) {
  const { words, control } = splitField(props);
  const { mono, ...native } = control;
  return (
    <Field {...words} id={native.id}>
      {(wiring) => (
        <textarea
          rows={4}
          {...native}
          {...wiring}
          className={classNames("control field-sizing-content max-h-80 min-h-24", mono && "font-mono text-small")}
        />
      )}
    </Field>
  );
}

/** A number as typed, its unit always in sight. The value stays text: the form's parser judges it. */
export function NumberInput(props: FieldWords & Native<"input"> & { unit: string }) {
  const { words, control } = splitField(props);
  const { unit, ...native } = control;
  return (
    <Field {...words} id={native.id}>
      {(wiring) => (
        <span className="relative flex items-center">
          <input
            type="text"
            inputMode="decimal"
            autoComplete="off"
            {...native}
            {...wiring}
            aria-describedby={classNames(wiring["aria-describedby"], `${wiring.id}-unit`)}
            className="control pr-16 font-mono tabular-nums"
          />
          <span
            id={`${wiring.id}-unit`}
            className="pointer-events-none absolute right-2.5 bg-inherit text-small text-ink-soft"
          >
            {unit}
          </span>
        </span>
      )}
    </Field>
  );
}

/** Date, time or both, by the browser's own control. `zone` says whose clock it is ("site time, MST"). */
export function DateTimeField(
  props: FieldWords & Omit<Native<"input">, "type"> & { kind?: "datetime-local" | "date" | "time"; zone?: string },
) {
  const { words, control } = splitField(props);
  const { kind = "datetime-local", zone, ...native } = control;
  return (
    <Field {...words} hint={words.hint ?? zone} id={native.id}>
      {(wiring) => <input {...native} {...wiring} type={kind} className="control tabular-nums" />}
    </Field>
  );
}
