import { type ReactNode, useId } from "react";
import { classNames } from "./class-names";
import { describe, FieldError, FieldHint, type FieldWords } from "./field";

export type Card = { value: string; label: ReactNode; detail?: ReactNode; disabled?: boolean };

/** One of a few, each a card wide enough for a glove. Native radio buttons: arrows move, the group has a name. */
export function RadioCards(
  props: Omit<FieldWords, "optional"> & {
    name: string;
    cards: readonly Card[];
    value?: string;
    defaultValue?: string;
    onValueChange?: (value: string) => void;
    required?: boolean;
    columns?: 1 | 2 | 3;
  },
) {
  const { name, cards, value, onValueChange, columns = 1 } = props;
  const id = useId();
  return (
    <fieldset
      className={classNames("min-w-0", props.className)}
      aria-describedby={describe(id, props.hint, props.error)["aria-describedby"]}
    >
      <legend className={props.labelHidden ? "sr-only" : "font-medium"}>{props.label}</legend>
      <FieldHint id={id}>{props.hint}</FieldHint>
      <div
        className={classNames(
          "mt-2 grid gap-2",
          columns === 2 && "grid-cols-[repeat(auto-fit,minmax(max(min(100%,15rem),40%),1fr))]",
          columns === 3 && "grid-cols-[repeat(auto-fit,minmax(max(min(100%,11rem),28%),1fr))]",
        )}
      >
        {cards.map((card) => (
          <label
            key={card.value}
            className={classNames(
              "flex min-h-(--control) cursor-pointer items-center gap-3 rounded-control border border-edge bg-raised px-3 py-2",
              "has-checked:border-action has-checked:shadow-[inset_0_0_0_2px_var(--action)] has-focus-visible:outline-2 has-focus-visible:outline-offset-2 has-focus-visible:outline-focus",
              card.disabled && "cursor-not-allowed bg-sunk text-ink-soft",
            )}
          >
            <input
              type="radio"
              name={name}
              value={card.value}
              disabled={card.disabled}
              required={props.required}
              className="size-5 shrink-0 accent-action outline-none"
              {...(value !== undefined && { checked: value === card.value })}
              {...(props.defaultValue !== undefined && { defaultChecked: props.defaultValue === card.value })}
              {...(onValueChange && { onChange: () => onValueChange(card.value) })}
              {...(value !== undefined && !onValueChange && { readOnly: true })}
            />
            <span className="grid">
              <span className="font-medium">{card.label}</span>
              {card.detail && (
                <span className="text-small text-ink-soft">
                  <span className="sr-only">, </span>
                  {card.detail}
                </span>
              )}
            </span>
          </label>
        ))}
      </div>
      <FieldError id={id} className="mt-1">
        {props.error}
      </FieldError>
    </fieldset>
  );
}
