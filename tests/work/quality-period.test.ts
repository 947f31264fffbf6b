import { describe, expect, test } from "vitest";
import { readOutcomeQuery } from "@/lib/work/outcome-query";
import { periodOf, periodWords, queryText, readQualityQuery, shifted } from "@/lib/work/quality-period";

const TODAY = "2026-11-25";

describe("the address of a dashboard", () => {
  test("says nothing: the year up to this month", () => {
    expect(readQualityQuery({}, TODAY)).toEqual({ span: "year", until: "2026-11", kind: null });
  });

  test("says nonsense: what cannot be read is left out", () => {
    const asked = { span: "decade", until: "2026-13", kind: "'; drop table" };
    expect(readQualityQuery(asked, TODAY)).toEqual({ span: "year", until: "2026-11", kind: null });
    expect(readQualityQuery({ until: ["2026-01"], span: ["month"] }, TODAY)).toMatchObject({ until: "2026-11" });
    expect(readQualityQuery({ until: "2030-01" }, TODAY).until).toBe("2026-11");
  });

  test("is read back from what was written", () => {
    const query = { span: "quarter", until: "2026-03", kind: "leak_repair" } as const;
    expect(readQualityQuery(Object.fromEntries(new URLSearchParams(queryText(query))), TODAY)).toEqual(query);
  });
});

test.each([
  ["month", "2026-02", "2026-02-01", "2026-03-01", "Feb 2026"],
  ["quarter", "2026-01", "2025-11-01", "2026-02-01", "Nov 2025 to Jan 2026"],
  ["year", "2026-11", "2025-12-01", "2026-12-01", "Dec 2025 to Nov 2026"],
] as const)("a %s up to %s is whole months", (span, until, fromDay, toDay, words) => {
  const query = { span, until, kind: null };
  expect(periodOf(query)).toEqual({ fromDay, toDay });
  expect(periodWords(query)).toBe(words);
});

test("earlier and later go by the length of the period, and never past this month", () => {
  const query = { span: "quarter", until: "2026-10", kind: null } as const;
  expect(shifted(query, -1, TODAY)?.until).toBe("2026-07");
  expect(shifted(query, 1, TODAY)?.until).toBe("2026-11");
  expect(shifted({ ...query, until: "2026-11" }, 1, TODAY)).toBeNull();
  expect(shifted({ ...query, span: "all" }, -1, TODAY)).toBeNull();
});

test("jobs behind a figure of followed jobs end with the last day followed for the whole window", () => {
  const query = { span: "year", until: "2026-11", kind: null } as const;
  const at = { today: TODAY, windowDays: 90 };
  expect(readOutcomeQuery({ followed: "yes" }, query, at).toDay).toBe("2026-08-28"); // closed on 27 August: 90 days ago
  expect(readOutcomeQuery({}, query, at).toDay).toBe("2026-12-01");
  expect(readOutcomeQuery({ month: "2026-01", strength: "weak,none,x" }, query, at)).toMatchObject({
    fromDay: "2026-01-01",
    toDay: "2026-02-01",
    strengths: ["weak", "none"],
  });
});
