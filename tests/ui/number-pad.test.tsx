// @vitest-environment jsdom
import { act } from "react";
import { createRoot, type Root } from "react-dom/client";
import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { NumberPad } from "@/components/ui/number-pad";

let place: HTMLDivElement;
let root: Root;

beforeEach(() => {
  (globalThis as { IS_REACT_ACT_ENVIRONMENT?: boolean }).IS_REACT_ACT_ENVIRONMENT = true;
  place = document.body.appendChild(document.createElement("div"));
  root = createRoot(place);
});
afterEach(() => {
  act(() => root.unmount());
  place.remove();
});

function show(onConfirm: (value: number) => void, initial?: number, unit = "micron") {
  act(() =>
    root.render(
      <NumberPad
        label="Gauge"
        unit={unit}
        decimals={1}
        plausible={{ low: 50, high: 20_000 }}
        onConfirm={onConfirm}
        {...(initial !== undefined && { initial })}
      />,
    ),
  );
}
function press(...names: string[]) {
  for (const name of names) {
    const key = [...place.querySelectorAll("button")].find(
      (one) => (one.getAttribute("aria-label") ?? one.textContent) === name,
    );
    if (!key) throw new Error(`no key ${name}`);
    act(() => key.click());
  }
}
const line = () => place.querySelector("input") as HTMLInputElement;

test("keys write the number and the button gives it away", () => {
  const confirmed = vi.fn();
  show(confirmed);
  press("6", "1", "2", "Decimal point", "5", "Record");
  expect(line().value).toBe("612.5");
  expect(confirmed.mock.calls).toEqual([[612.5]]);
});

test("nothing typed is nothing recorded", () => {
  const confirmed = vi.fn();
  show(confirmed);
  press("Record");
  expect(confirmed).not.toHaveBeenCalled();
});

test("the first digit replaces the value it started with, deleting edits it", () => {
  show(() => undefined, 480);
  press("5");
  expect(line().value).toBe("5");
  act(() => root.render(null));
  show(() => undefined, 480);
  press("Delete the last digit");
  expect(line().value).toBe("48");
});

test("an unusual value is warned about in words and may still be recorded", () => {
  const confirmed = vi.fn();
  show(confirmed);
  press("9");
  expect(place.querySelector("[role=status]")?.textContent).toContain("Lower than usual");
  press("Record");
  expect(confirmed.mock.calls).toEqual([[9]]);
});

test("Enter on a keyboard confirms, and the system's own pad stays away", () => {
  const confirmed = vi.fn();
  show(confirmed, 300);
  expect(line().inputMode === "none" || line().getAttribute("inputmode") === "none").toBe(true);
  act(() => {
    line().dispatchEvent(new KeyboardEvent("keydown", { key: "Enter", bubbles: true, cancelable: true }));
  });
  expect(confirmed.mock.calls).toEqual([[300]]);
});

test("another unit empties the line and leaves the keys where they are, with the focus on them", () => {
  const confirmed = vi.fn();
  show(confirmed);
  press("6", "1");
  const seven = [...place.querySelectorAll("button")].find((one) => one.textContent === "7")!;
  seven.focus();
  show(confirmed, undefined, "Pa");
  expect(line().value).toBe("");
  expect(document.activeElement).toBe(seven);
  press("8", "Record");
  expect(confirmed.mock.calls).toEqual([[8]]);
});
