"use client";

import { type ReactNode, useId } from "react";
import { RadioCards } from "@/components/ui/choice-cards";
import { classNames } from "@/components/ui/class-names";
import { FieldError, FieldHint } from "@/components/ui/field";
import { DateTimeField, TextArea, TextInput } from "@/components/ui/text-input";
import { fieldsWords } from "@/lib/words/en/fields";
import { useJobHere } from "../job/job-context";
import { siteClockName, siteFieldValue, siteMoment } from "../today/site-clock";
import { useField } from "./form-context";

/** A statement that is so or is not; unanswered until someone answers. */
export function YesNo(props: { at: string; label: ReactNode; hint?: ReactNode; yes?: string; no?: string }) {
  const { value, set, problem } = useField<boolean>(props.at);
  const id = useId();
  return (
    <fieldset
      className="grid grid-cols-[1fr_auto] items-center gap-x-4 gap-y-1 border-b border-hairline py-2"
      aria-describedby={classNames(props.hint ? `${id}-hint` : null, problem ? `${id}-error` : null) || undefined}
      data-open-field={problem ? "" : undefined}
    >
      <legend className="contents">
        <span className="font-medium">{props.label}</span>
      </legend>
      <div className="flex gap-2">
        {[
          { answer: true, word: props.yes ?? fieldsWords.yes },
          { answer: false, word: props.no ?? fieldsWords.no },
        ].map(({ answer, word }) => (
          <label
            key={word}
            className="grid min-h-(--control) min-w-20 cursor-pointer place-items-center rounded-control border border-edge bg-raised px-3 has-checked:border-action has-checked:font-semibold has-checked:shadow-[inset_0_0_0_2px_var(--action)] has-focus-visible:outline-2 has-focus-visible:outline-offset-2 has-focus-visible:outline-focus"
          >
            <input type="radio" name={id} className="sr-only" checked={value === answer} onChange={() => set(answer)} />
            {word}
          </label>
        ))}
      </div>
      <div className="col-span-2">
        <FieldHint id={id}>{props.hint}</FieldHint>
        <FieldError id={id}>{problem}</FieldError>
      </div>
    </fieldset>
  );
}

export type Option = { value: string; label: string; detail?: ReactNode; disabled?: boolean };

/** One of a few. */
export function OneOf(props: {
  at: string;
  label: ReactNode;
  hint?: ReactNode;
  options: readonly Option[];
  columns?: 1 | 2 | 3;
  onChoose?: (value: string) => void;
}) {
  const { value, set, problem } = useField<string>(props.at);
  const name = useId();
  return (
    <div data-open-field={problem ? "" : undefined}>
      <RadioCards
        name={name}
        label={props.label}
        hint={props.hint}
        error={problem}
        columns={props.columns ?? 2}
        cards={props.options}
        value={value ?? ""}
        onValueChange={(chosen) => {
          set(chosen);
          props.onChoose?.(chosen);
        }}
      />
    </div>
  );
}

/** Words typed on the system's keyboard. */
export function Words(props: { at: string; label: string; hint?: ReactNode; optional?: boolean; long?: boolean }) {
  const { value, set, problem } = useField<string>(props.at);
  const Input = props.long ? TextArea : TextInput;
  return (
    <div data-open-field={problem ? "" : undefined}>
      <Input
        label={props.label}
        hint={props.hint}
        error={problem}
        {...(props.optional && { optional: true })}
        value={value ?? ""}
        onChange={(event) => set(event.target.value === "" ? (props.optional ? null : "") : event.target.value)}
      />
    </div>
  );
}

/** A calendar day. */
export function Day(props: { at: string; label: string; hint?: ReactNode; optional?: boolean }) {
  const { value, set, problem } = useField<string>(props.at);
  return (
    <div data-open-field={problem ? "" : undefined}>
      <DateTimeField
        kind="date"
        label={props.label}
        hint={props.hint}
        error={problem}
        {...(props.optional && { optional: true })}
        value={value ?? ""}
        onChange={(event) => set(event.target.value || null)}
      />
    </div>
  );
}

/** A moment, by the site's clock wherever the tablet comes from; "now" is one press. */
export function Moment(props: { at: string; label: string; nowWord: string }) {
  const { value, set, problem } = useField<string>(props.at);
  const { timeZone } = useJobHere().job.heading.job.site;
  const atMs = value ? Date.parse(value) : Date.now();
  return (
    <div className="grid grid-cols-[1fr_auto] items-end gap-2" data-open-field={problem ? "" : undefined}>
      <DateTimeField
        label={props.label}
        zone={fieldsWords.byTheSitesClock(siteClockName(atMs, timeZone))}
        error={problem}
        value={value ? siteFieldValue(atMs, timeZone) : ""}
        onChange={(event) => {
          set(siteMoment(event.target.value, timeZone)?.toISOString() ?? null);
        }}
      />
      <button
        type="button"
        onClick={() => set(new Date().toISOString())}
        className="min-h-(--control) rounded-control border border-edge bg-raised px-4 font-semibold"
      >
        {props.nowWord}
        <span className="sr-only">: {props.label}</span>
      </button>
    </div>
  );
}
