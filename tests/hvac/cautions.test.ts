import { expect, test } from "vitest";
import { cautionsFor } from "@/lib/hvac/cautions";
import { STEP_IDS } from "@/lib/hvac/log/step";
import { CAUTIONS } from "@/lib/hvac/rules/cautions";

const ids = (...of: Parameters<typeof cautionsFor>) => cautionsFor(...of).map(({ id }) => id);

test("every step has a caution for every class", () => {
  for (const step of STEP_IDS)
    for (const safetyClass of ["A1", "A2L", "A3", "B2L", null] as const)
      expect(ids(step, safetyClass).length).toBeGreaterThan(0);
});

test("an unknown refrigerant is met with every caution there is", () => {
  for (const step of STEP_IDS)
    for (const safetyClass of ["A1", "A2L", "A3", "B2L"] as const)
      for (const id of ids(step, safetyClass)) expect(ids(step, null)).toContain(id);
});

test("ignition sources are named for A2L and A3 at every step with gas, not for A1; toxicity for B only", () => {
  expect(ids("recover", "A2L")).toContain("ignition-sources");
  expect(ids("recover", "A3")).toContain("exclusion-zone");
  expect(ids("recover", "A2L")).not.toContain("exclusion-zone");
  expect(ids("recover", "A1")).not.toContain("ignition-sources");
  expect(ids("recover", "B2L")).toContain("toxic");
  expect(ids("recover", "A3")).not.toContain("toxic");
});

test("the grave ones stand where the harm is done", () => {
  expect(ids("pressure_test", "A1")).toContain("oxygen-explodes");
  expect(ids("open_repair", "A1")).toContain("flame-on-refrigerant");
  expect(ids("evacuate", "A1")).toContain("compressor-under-vacuum");
});

test("ids are unique and each caution says where it comes from", () => {
  expect(new Set(CAUTIONS.map(({ id }) => id)).size).toBe(CAUTIONS.length);
  for (const { source, text } of CAUTIONS) expect(source && text).toBeTruthy();
});
