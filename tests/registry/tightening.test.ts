import { describe, expect, test } from "vitest";
import { criteriaInForce } from "@/lib/hvac/procedure";
import { defaultHoldCriteria, readTightenings, tighteningForm, tighteningRows } from "@/lib/registry/tightening";

const form = (typed: Record<string, string>) =>
  tighteningForm.safeParse({
    targetMicron: "",
    holdMinutes: "",
    maxFinalMicron: "",
    maxSteadyRiseMicronPerMin: "",
    ...typed,
  });

describe("a company's own criteria", () => {
  test.each([
    { targetMicron: "501" },
    { holdMinutes: "9" },
    { maxFinalMicron: "1200" },
    { maxSteadyRiseMicronPerMin: "6" },
    { holdMinutes: "NaN" },
    { targetMicron: "-5" },
  ])("are refused when looser than the default, or no number: %o", (typed) => {
    expect(form(typed).success).toBe(false);
  });

  test("tighten what they name and leave the rest at the default", () => {
    const fields = form({ targetMicron: "300", holdMinutes: "15" });
    if (!fields.success) throw fields.error;
    const rows = tighteningRows(fields.data, "2026-11-25");
    expect(readTightenings(JSON.parse(JSON.stringify(rows)))).toEqual(rows);
    const inForce = criteriaInForce("hold", rows, { circuit: null, wet: false });
    expect(inForce?.values).toEqual({ ...defaultHoldCriteria(), targetMicron: 300, holdMinutes: 15 });
    expect(inForce?.sources).toContain("Company rule since 2026-11-25");
  });

  test("left empty are none", () => {
    const fields = form({});
    if (!fields.success) throw fields.error;
    expect(tighteningRows(fields.data, "2026-11-25")).toEqual([]);
  });
});
