import { describe, expect, test } from "vitest";
import { STEP_IDS } from "@/lib/hvac/log/step";
import { intentionIn, refusalOf } from "@/lib/hvac/procedure/refusal";
import { recordOf } from "./evidence-samples";
import { Tablet } from "./job-log";

function jobUpTo(until: (typeof STEP_IDS)[number] | null): Tablet {
  const tablet = new Tablet(1);
  tablet.open("compressor_change");
  if (until) tablet.recordAll("make_safe", until);
  return tablet;
}
const codes = (list: readonly { readonly code: string; readonly step: string | null }[]) =>
  list.map(({ code, step }) => `${code} ${step}`);

describe("an intention is refused while its turn has not come", () => {
  test.each([
    ["open_repair", "make_safe", ["not-its-turn recover"]],
    ["evacuate", "open_repair", ["not-its-turn pressure_test", "not-its-turn leak_check"]],
    ["break_and_charge", "evacuate", ["not-its-turn hold"]],
    ["recover", null, ["not-its-turn make_safe"]],
  ] as const)("%s after %s", (step, until, refused) => {
    expect(codes(refusalOf(jobUpTo(until).state(), { do: "begin-step", step }))).toEqual(refused);
  });

  test.each(STEP_IDS)("%s is not refused when all before it is settled", (step) => {
    const at = STEP_IDS.indexOf(step);
    const tablet = jobUpTo(at === 0 ? null : STEP_IDS[at - 1]!);
    expect(refusalOf(tablet.state(), { do: "begin-step", step })).toEqual([]);
  });

  test("closing is refused with everything that is missing", () => {
    const refusals = refusalOf(jobUpTo("hold").state(), { do: "close-job" });
    expect(codes(refusals)).toEqual(
      ["break_and_charge", "close", "performance", "records"].map((step) => `not-recorded ${step}`),
    );
    for (const { text } of refusals) expect(text).toMatch(/^[A-Z].*\.$/);
    expect(refusalOf(jobUpTo("records").state(), { do: "close-job" })).toEqual([]);
  });

  test("overriding recovery, or a failed tightness test, is refused before it is asked", () => {
    const tablet = jobUpTo("open_repair");
    tablet.record("pressure_test", { note: "verdict leaking" });
    const ask = (step: (typeof STEP_IDS)[number]) => codes(refusalOf(tablet.state(), { do: "ask-override", step }));
    expect(ask("recover")).toEqual(["ask-not-allowed recover"]);
    expect(ask("hold")).toEqual(["override-barred hold"]);
    expect(ask("close")).toEqual([]);
  });

  test("a lighter kind is refused once the circuit was opened", () => {
    const intention = { do: "set-kind", kind: "component_swap_not_opened" } as const;
    expect(refusalOf(jobUpTo("make_safe").state(), intention)).toEqual([]);
    expect(codes(refusalOf(jobUpTo("open_repair").state(), intention))).toEqual(["kind-contradicted null"]);
  });

  test("a fill above the cylinder's limit is refused", () => {
    // 0.80 x 21.7 kg water x 1.06 (R-410A at 77 F, computed) is about 18.4 kg net.
    const fill = {
      waterCapacityKg: 21.7,
      tareKg: 12,
      contents: "R-410A",
      requalificationDueOn: "2030-01-31",
      disposable: false,
      damaged: false,
      markedForFlammables: false,
      date: "2026-11-25",
    };
    const state = jobUpTo("make_safe").state();
    expect(refusalOf(state, { do: "fill-cylinder", fill: { ...fill, grossKg: 25 } })).toEqual([]);
    const refusals = refusalOf(state, { do: "fill-cylinder", fill: { ...fill, grossKg: 33 } });
    expect(codes(refusals)).toContain("over-limit recover");
  });
});

test("what has happened states no intention", () => {
  expect(intentionIn({ kind: "step-recorded", body: recordOf("evacuate") })).toBeNull();
  expect(intentionIn({ kind: "circuit-opened", body: { why: "leak" } })).toBeNull();
  expect(intentionIn({ kind: "override-asked", body: { step: "hold", why: "late" } })).toEqual({
    do: "ask-override",
    step: "hold",
  });
});
