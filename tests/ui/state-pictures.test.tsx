import { readFileSync } from "node:fs";
import { renderToStaticMarkup } from "react-dom/server";
import { expect, test } from "vitest";
import { type State, StateShape, stateWord } from "@/components/ui/state-mark";

const colours = new Map(
  [...readFileSync("app/globals.css", "utf8").matchAll(/--([\w-]+): (light-dark\(.*?\)\));/g)].map(
    ([, name, value]) => [name!, value!] as const,
  ),
);
const sheet = readFileSync("app/(office)/[company]/board/_components/board.css", "utf8");
const pictures = new Map(
  [...sheet.matchAll(/\.bar\[data-state="([\w-]+)"\] \{\s+background-image: url\("data:[^,]*,(.*?)"\)/g)].map(
    ([, state, address]) => [state!, decodeURIComponent(address!)] as const,
  ),
);
const addresses = [...sheet.matchAll(/url\("data:[^,]*,(.*?)"\)/g)].map(([, address]) => decodeURIComponent(address!));
const states = Object.keys(stateWord) as State[];

test("every state has a picture", () => {
  expect([...pictures.keys()].sort()).toEqual([...states].sort());
});

test("two shapes beside each other are the same pictures", () => {
  const pair = (gap: string) => [pictures.get("waiting"), pictures.get(gap)];
  expect(addresses).toEqual([...pictures.values(), ...pair("needs-you"), ...pair("refused")]);
});

test.each(states)(
  "the picture of %s has the shape of its drawing and the colours of the page, light and dark",
  (state) => {
    const picture = pictures.get(state)!;
    const drawing = renderToStaticMarkup(<StateShape state={state} />);
    const lines = (of: string) =>
      [...of.matchAll(/ (?:d|cx|cy|r|stroke-dasharray)=["']([^"']+)/g)].map(([, value]) => value);
    expect(lines(picture)).toEqual(lines(drawing));
    const used = [...picture.matchAll(/light-dark\(.*?\)\)/g)].map(([value]) => value);
    const ground = drawing.includes("var(--ground)") ? [colours.get("ground")] : [];
    expect(used).toEqual([colours.get(state), ...ground]);
  },
);
