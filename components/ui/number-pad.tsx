"use client";

import { type ReactNode, useId, useState } from "react";
import { numberPadWords } from "@/lib/words/en/number-pad";
import { Button } from "./button";
import { classNames } from "./class-names";
import { acceptTyped, judgePlausible, type PadKey, type Plausible, padNumber, pressKey } from "./number-pad-value";
import { StateMark } from "./state-mark";

const digitKeys: readonly PadKey[] = ["7", "8", "9", "4", "5", "6", "1", "2", "3"];

/**
 * The tablet's own pad for one number: big keys, the unit in sight, a word of warning outside the plausible range.
 * A keyboard types into the same line, Enter confirms; the system's on-screen keyboard stays away.
 */
export function NumberPad(props: {
  label: string;
  unit: string;
  onConfirm: (value: number) => void;
  /** Starts with this value; the first digit typed replaces it. */
  initial?: number;
  decimals?: number;
  negative?: boolean;
  plausible?: Plausible;
  /** Said outside the range, with what usually explains it. */
  warning?: ReactNode;
  hint?: ReactNode;
  confirmWord?: string;
  pending?: boolean;
  /** Line and keys beside each other, so that what the number belongs to stays in sight above a sheet. */
  broad?: boolean;
  /** What stands with the line: the units it may be typed in. */
  beside?: ReactNode;
}) {
  const { label, unit, decimals = 1, negative = false, plausible, pending = false } = props;
  const id = useId();
  const [text, setText] = useState(shown(props.initial));
  const [untouched, setUntouched] = useState(props.initial !== undefined);
  const [unitShown, setUnitShown] = useState(unit);
  if (unit !== unitShown) {
    // A number typed for one unit is none in another; the keys stay, and with them the focus.
    setUnitShown(unit);
    setText(shown(props.initial));
    setUntouched(props.initial !== undefined);
  }
  const hasHint = Boolean(props.hint || plausible);
  const allows = { decimals, negative };
  const value = padNumber(text);
  const side = value === undefined || !plausible ? "plausible" : judgePlausible(value, plausible);

  function change(next: string) {
    setText(next);
    setUntouched(false);
  }
  function press(key: PadKey) {
    const replaces = untouched && key !== "back" && key !== "minus";
    change(pressKey(replaces ? "" : text, key, allows));
  }
  function confirm() {
    if (value !== undefined && !pending) props.onConfirm(value);
  }

  return (
    <fieldset
      data-place="tablet"
      className={classNames(
        "grid min-w-0 max-w-full content-start gap-3 self-start",
        props.broad ? "pair:grid-cols-[minmax(0,1fr)_22rem] pair:gap-x-6" : "w-[26rem]",
      )}
    >
      <legend className={props.broad ? "sr-only" : "contents"}>
        <label htmlFor={id} className="text-body font-medium">
          {label}
        </label>
      </legend>
      <div className="grid min-w-0 content-start gap-3">
        {hasHint && (
          <p id={`${id}-hint`} className="text-small text-ink-soft">
            {props.hint}
            {props.hint && plausible && " · "}
            {plausible && numberPadWords.usually(spaced(plausible.low), spaced(plausible.high), unit)}
          </p>
        )}
        <div className="flex items-baseline gap-3 border-b-2 border-edge bg-raised px-3 focus-within:border-focus">
          <input
            id={id}
            inputMode="none"
            autoComplete="off"
            aria-describedby={classNames(`${id}-unit`, hasHint && `${id}-hint`, `${id}-warning`)}
            value={text.replace("-", "−")}
            onChange={(event) => {
              const accepted = acceptTyped(event.target.value.replace("−", "-"), allows);
              if (accepted !== undefined) change(accepted);
            }}
            onFocus={(event) => untouched && event.target.select()}
            onKeyDown={(event) => {
              if (event.key !== "Enter") return;
              event.preventDefault(); // the form around the pad is not what Enter confirms
              confirm();
            }}
            className="w-0 grow bg-transparent py-2 text-right font-mono text-[2.5rem] leading-tight tabular-nums outline-none"
          />
          <span id={`${id}-unit`} className="min-w-16 text-body text-ink-soft">
            {unit}
          </span>
        </div>
        <p
          id={`${id}-warning`}
          role="status"
          className={classNames("text-small", plausible && "min-h-[4.5em]")} // room kept: keys must not move under a glove
        >
          {side !== "plausible" && (
            <>
              <StateMark
                state="needs-you"
                word={side === "low" ? numberPadWords.lowerThanUsual : numberPadWords.higherThanUsual}
              />
              {". "}
              {props.warning ?? numberPadWords.checkUnitAndInstrument}
            </>
          )}
        </p>
        {props.beside}
      </div>
      <div className="grid grid-cols-4 grid-rows-4 gap-2">
        {digitKeys.map((key, place) => (
          <Key key={key} onPress={() => press(key)} row={Math.floor(place / 3) + 1} column={(place % 3) + 1}>
            {key}
          </Key>
        ))}
        {negative && (
          <Key onPress={() => press("minus")} name={numberPadWords.changeSign} row={4} column={1}>
            ±
          </Key>
        )}
        <Key onPress={() => press("0")} row={4} column={2}>
          0
        </Key>
        {decimals > 0 && (
          <Key onPress={() => press("decimal")} name={numberPadWords.decimalPoint} row={4} column={3}>
            .
          </Key>
        )}
        <Key onPress={() => press("back")} name={numberPadWords.deleteTheLastDigit} row={1} column={4}>
          <svg
            viewBox="0 0 24 16"
            className="w-8"
            fill="none"
            stroke="currentColor"
            strokeWidth="1.75"
            aria-hidden="true"
          >
            <path d="M8 1h15v14H8L1 8ZM12 5l6 6M18 5l-6 6" />
          </svg>
        </Key>
        <Key onPress={() => press("clear")} name={numberPadWords.clear} row={2} column={4}>
          {numberPadWords.clearKey}
        </Key>
        <Button
          kind="action"
          wide
          pending={pending}
          disabled={value === undefined}
          onClick={confirm}
          className="col-start-4 row-span-2 row-start-3"
        >
          {props.confirmWord ?? numberPadWords.record}
        </Button>
      </div>
    </fieldset>
  );
}

const shown = (initial: number | undefined) => (initial === undefined ? "" : String(initial));
const spaced = (value: number) => value.toLocaleString("en-US");

function Key(props: { onPress: () => void; name?: string; row: number; column: number; children: ReactNode }) {
  return (
    <button
      type="button"
      aria-label={props.name}
      onClick={props.onPress}
      style={{ gridRow: props.row, gridColumn: props.column }}
      className="grid min-h-16 touch-manipulation select-none place-items-center rounded-control border border-edge bg-raised font-mono text-title active:bg-sunk"
    >
      {props.children}
    </button>
  );
}
