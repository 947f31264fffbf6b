import { describe, expect, test } from "vitest";
import { callForm, jobKindForm, planFrom, visitForm } from "@/lib/work/call-form";

const id = "0190b8a0-0000-7000-8000-000000000001";
const call = { customerId: id, siteId: id, equipmentId: "", caller: " Ann  Lee ", symptom: "warm", urgency: "today" };
const faults = (given: object) =>
  callForm.safeParse({ ...call, ...given }).error?.issues.map((issue) => issue.path.join("."));

describe("a call", () => {
  test("is taken as it was typed, trimmed", () => {
    expect(callForm.parse(call)).toEqual({
      customerId: id,
      siteId: id,
      equipmentId: undefined,
      caller: "Ann Lee",
      symptom: "warm",
      urgency: "today",
    });
  });

  test.each([
    ["an urgency of its own", { urgency: "now" }, "urgency"],
    ["no symptom", { symptom: "  \n" }, "symptom"],
    ["a symptom of 2001 letters", { symptom: "x".repeat(2001) }, "symptom"],
    ["a NUL", { symptom: "a\0b" }, "symptom"],
    ["no site", { siteId: "" }, "siteId"],
    ["a site that is no id", { siteId: "1 or 1=1" }, "siteId"],
    ["a unit that is no id", { equipmentId: "x" }, "equipmentId"],
    ["a field nobody asked for", { tenantId: id }, ""],
  ])("with %s is refused at its field", (_what, given, field) => {
    expect(faults(given)).toEqual([field]);
  });
});

const visit = {
  windowDay: "2026-11-25",
  windowFrom: "08:00",
  windowTo: "12:00",
  plannedStart: "2026-11-25T09:00",
  plannedMinutes: "120",
  people: [id],
};
const plan = (given: object, zone = "America/Chicago") => planFrom(visitForm.parse({ ...visit, ...given }), zone);

describe("a visit's plan", () => {
  test("is read in the site's time", () => {
    expect(plan({})).toEqual({
      errors: {},
      plan: {
        window: { from: new Date("2026-11-25T14:00:00Z"), to: new Date("2026-11-25T18:00:00Z") },
        plannedStart: new Date("2026-11-25T15:00:00Z"),
        plannedMinutes: 120,
        people: [id],
      },
    });
  });

  test("needs no window and no start", () => {
    const none = { windowDay: "", windowFrom: "", windowTo: "", plannedStart: "" };
    expect(plan(none)).toMatchObject({ errors: {}, plan: { window: null, plannedStart: null } });
  });

  test.each([
    [{ windowTo: "08:00" }, "windowTo"],
    [{ windowTo: "07:00" }, "windowTo"],
    [{ windowFrom: "25:00" }, "windowTo"],
    [{ windowTo: "" }, "windowDay"],
    [{ windowDay: "" }, "windowDay"],
    [{ plannedStart: "2026-11-31T09:00" }, "plannedStart"],
  ])("with %o says so at its field", (given, field) => {
    expect(Object.keys(plan(given).errors)).toEqual([field]);
  });

  test("over the night the clocks go back is an hour longer than it looks", () => {
    const { window } = plan({ windowDay: "2026-11-01", windowFrom: "00:00", windowTo: "04:00" }).plan;
    expect((window!.to.getTime() - window!.from.getTime()) / 3_600_000).toBe(5); // IANA tz, America/Chicago
  });

  test.each([
    ["NaN", "plannedMinutes"],
    ["", "plannedMinutes"],
    ["4", "plannedMinutes"],
    ["1441", "plannedMinutes"],
    ["12.5", "plannedMinutes"],
    ["-60", "plannedMinutes"],
    ["1e999", "plannedMinutes"],
  ])("of %s minutes is refused", (plannedMinutes, field) => {
    const read = visitForm.safeParse({ ...visit, plannedMinutes });
    expect(read.error?.issues.map((issue) => issue.path.join("."))).toContain(field);
  });
});

test("a kind of job is one of the known ones", () => {
  expect(jobKindForm.safeParse("leak_repair").success).toBe(true);
  for (const odd of ["", "LEAK_REPAIR", "toString", null]) expect(jobKindForm.safeParse(odd).success).toBe(false);
});
