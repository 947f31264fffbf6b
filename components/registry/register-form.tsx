"use client";

import { type ReactNode, startTransition, useActionState, useEffect, useRef, useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";
import { Section } from "@/components/ui/section";
import { useUndo } from "@/components/ui/undo";
import type { Result } from "@/lib/result";
import { failureWords, type RegisterFailure } from "./failure";
import { type FieldSpec, RegisterField, type Values } from "./register-field";

export interface FormPart {
  readonly title?: string;
  readonly lead?: string;
  readonly fields: readonly FieldSpec[];
}
export type FormAction = (
  previous: Result<unknown, RegisterFailure> | null,
  form: FormData,
) => Promise<Result<unknown, RegisterFailure>>;

/**
 * A form of the register: parts with their fields, errors at the field, the first of them focused. What was typed
 * stays when it is refused. With `saved` it stays open after success, says so, and starts afresh if `again`.
 */
export function RegisterForm(props: {
  action: FormAction;
  hidden: Readonly<Record<string, string>>;
  parts: readonly FormPart[];
  values: Values;
  submit: string;
  cancel?: string;
  saved?: string;
  again?: boolean;
  onValues?: (form: FormData) => void;
  children?: ReactNode;
}) {
  const [outcome, dispatch, pending] = useActionState(props.action, null);
  const [now, setNow] = useState(props.values);
  const [round, setRound] = useState(0);
  const formRef = useRef<HTMLFormElement>(null);
  const said = useUndo();
  const errors = outcome && !outcome.ok ? failureWords(outcome.error) : {};
  const { saved, again = false } = props;

  // Once for each outcome, whatever else was drawn since.
  useEffect(() => {
    if (!outcome) return;
    if (!outcome.ok) formRef.current?.querySelector<HTMLElement>("[aria-invalid]")?.focus();
    else if (saved) {
      said(saved);
      if (again) setRound((each) => each + 1);
    }
  }, [outcome]);

  return (
    <form
      ref={formRef}
      key={round}
      action={dispatch}
      noValidate
      className="grid max-w-3xl gap-6"
      onSubmit={(event) => {
        event.preventDefault(); // the framework's own way empties the fields, also when they are refused
        const form = new FormData(event.currentTarget, (event.nativeEvent as SubmitEvent).submitter);
        if (!pending) startTransition(() => dispatch(form));
      }}
      onChange={(event) => {
        const form = new FormData(event.currentTarget);
        setNow(Object.fromEntries([...form].filter((pair): pair is [string, string] => typeof pair[1] === "string")));
        props.onValues?.(form);
      }}
    >
      {Object.entries(props.hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {errors[""] && <ErrorNotice happened={errors[""]} safe="Nothing was saved. What you typed is still here." />}
      {props.parts.map((part) => (
        <Part key={part.title ?? "only"} part={part} now={now} values={props.values} errors={errors} />
      ))}
      {props.children}
      <div className="flex flex-wrap gap-2">
        <Button type="submit" kind="action" pending={pending} pendingWord="Saving">
          {props.submit}
        </Button>
        {props.cancel && <LinkButton href={props.cancel}>Leave it</LinkButton>}
      </div>
    </form>
  );
}

function Part(props: { part: FormPart; now: Values; values: Values; errors: Readonly<Record<string, string>> }) {
  const { part, now, values, errors } = props;
  const shown = part.fields.filter(({ when }) => !when || when.is.includes(String(now[when.field] ?? "")));
  if (shown.length === 0) return null;
  const grid = (
    <div className="grid items-end gap-4 wide:grid-cols-2">
      {shown.map((field) => (
        <RegisterField key={field.name} field={field} value={values[field.name]} error={errors[field.name]} />
      ))}
    </div>
  );
  if (!part.title) return grid;
  return (
    <Section title={part.title} {...(part.lead && { lead: part.lead })}>
      {grid}
    </Section>
  );
}
