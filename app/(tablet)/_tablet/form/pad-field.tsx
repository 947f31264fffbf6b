"use client";

import { type ReactNode, useId, useState } from "react";
import { Button } from "@/components/ui/button";
import { classNames } from "@/components/ui/class-names";
import { Sheet } from "@/components/ui/dialog";
import { FieldError, FieldHint } from "@/components/ui/field";
import { NumberPad } from "@/components/ui/number-pad";
import { fieldsWords } from "@/lib/words/en/fields";
import {
  formOf,
  otherWords,
  QUANTITY_KINDS,
  type QuantityKind,
  type QuantityName,
  quantityWords,
  toWire,
} from "../units/quantity-kinds";
import { useUnits } from "../units/unit-choices";
import { useField } from "./form-context";

interface PadProps {
  readonly label: string;
  readonly quantity: QuantityName;
  readonly hint?: ReactNode;
  /** Usual range, in the wire's unit. */
  readonly usual?: readonly [number, number];
  /** Offers "Not known" and keeps null. */
  readonly mayBeUnknown?: boolean;
  readonly confirmWord?: string;
}

/** A number of the form: a wide target that opens the pad. */
export function PadField(props: PadProps & { at: string }) {
  const field = useField<number>(props.at);
  return <PadValue {...props} value={field.value} onChange={field.set} problem={field.problem} />;
}

/** The same outside a form. */
export function PadValue(
  props: PadProps & {
    value: number | null | undefined;
    onChange: (wire: number | null) => void;
    problem?: string | undefined;
  },
) {
  const { label, quantity, hint, value, problem } = props;
  const id = useId();
  const [open, setOpen] = useState(false);
  const units = useUnits();
  const other = typeof value === "number" ? otherWords(quantity, value, units.choices) : null;
  return (
    <div className="grid content-start gap-1" data-open-field={problem ? "" : undefined}>
      <span id={id} className="font-medium">
        {label}
      </span>
      <FieldHint id={id}>{hint}</FieldHint>
      <FieldError id={id}>{problem}</FieldError>
      <button
        type="button"
        aria-labelledby={`${id} ${id}-value`}
        aria-describedby={classNames(hint ? `${id}-hint` : null, problem ? `${id}-error` : null) || undefined}
        onClick={() => setOpen(true)}
        className="control flex min-h-(--control) flex-wrap items-center justify-between gap-x-3 text-left"
        data-invalid={problem ? "" : undefined}
      >
        <span id={`${id}-value`} className="whitespace-nowrap font-mono tabular-nums">
          {typeof value === "number" ? (
            quantityWords(quantity, value, units.choices)
          ) : (
            <span className="font-sans text-ink-soft">
              {value === null && props.mayBeUnknown
                ? fieldsWords.notKnown
                : fieldsWords.enterIn(formOf(quantity, units.choices).label)}
            </span>
          )}
        </span>
        {other && <span className="text-small text-ink-soft">{other}</span>}
      </button>
      <PadSheet {...props} open={open} onOpenChange={setOpen} />
    </div>
  );
}

/** The pad from below, with the units the number may be typed in. */
export function PadSheet(
  props: PadProps & {
    value?: number | null | undefined;
    onChange: (wire: number | null) => void;
    open: boolean;
    onOpenChange: (open: boolean) => void;
  },
) {
  const { label, quantity, usual, value, onChange, onOpenChange } = props;
  const { choices, choose } = useUnits();
  const kind: QuantityKind = QUANTITY_KINDS[quantity];
  const form = formOf(quantity, choices);
  const shown = (wire: number) => Number(form.fromWire(wire).toFixed(form.decimals));
  function done(wire: number | null) {
    onChange(wire);
    onOpenChange(false);
  }
  return (
    <Sheet side="bottom" title={label} open={props.open} onOpenChange={onOpenChange}>
      <NumberPad
        broad
        beside={
          (kind.forms.length > 1 || props.mayBeUnknown) && (
            <div className="flex flex-wrap gap-2">
              {kind.forms.length > 1 &&
                kind.forms.map((each) => (
                  <Button
                    key={each.key}
                    aria-pressed={each.key === form.key}
                    className="aria-pressed:border-action aria-pressed:shadow-[inset_0_0_0_2px_var(--action)]"
                    onClick={() => void choose(quantity, each.key)}
                  >
                    {each.label}
                  </Button>
                ))}
              {props.mayBeUnknown && (
                <Button kind="plain" onClick={() => done(null)}>
                  {fieldsWords.notKnown}
                </Button>
              )}
            </div>
          )
        }
        label={form.label ? fieldsWords.inUnit(label, form.label) : label}
        unit={form.label}
        decimals={form.decimals}
        negative={kind.negative ?? false}
        confirmWord={props.confirmWord ?? fieldsWords.enter}
        {...(typeof value === "number" && { initial: shown(value) })}
        {...(usual && { plausible: { low: shown(usual[0]), high: shown(usual[1]) } })}
        onConfirm={(typed) => done(toWire(form, typed))}
      />
    </Sheet>
  );
}
