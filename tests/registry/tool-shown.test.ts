import { describe, expect, test } from "vitest";
import { toolForm } from "@/lib/registry/tool";
import { keepWhatCameSince, shownOf } from "@/lib/registry/tool-shown";

const opened = {
  calibratedOn: null,
  calibrationDueOn: null,
  checkDueOn: "2027-03-01",
  oilChangedOn: "2026-11-02",
  oilRunHours: 3.4567,
};
const typed = (fields: object = {}) =>
  toolForm.parse({
    kind: "pump",
    name: "Pump 4",
    serial: "",
    heldBy: "",
    calibratedOn: "",
    calibrationDueOn: "",
    checkDueOn: opened.checkDueOn,
    oilChangedOn: opened.oilChangedOn,
    oilRunHours: "3.46",
    ...fields,
  });
const shown = shownOf(opened);

describe("a tool's form that was open while logs and history went on", () => {
  test("leaves hours alone that nobody touched in it", () => {
    const kept = keepWhatCameSince(shown, typed({ name: "Pump four" }), { ...opened, oilRunHours: 5.1234 });
    expect(kept).toMatchObject({ ok: true, value: { name: "Pump four", oilRunHours: 5.1234 } });
  });

  test("adds what a log brought to a corrected count of hours", () => {
    const kept = keepWhatCameSince(shown, typed({ oilRunHours: "4.00" }), {
      ...opened,
      oilRunHours: opened.oilRunHours + 2,
    });
    expect(kept.ok && kept.value.oilRunHours).toBeCloseTo(4 + 2, 2);
  });

  test("takes a corrected count as it was typed where nothing came in between", () => {
    expect(keepWhatCameSince(shown, typed({ oilRunHours: "4" }), opened)).toMatchObject({ value: { oilRunHours: 4 } });
    expect(keepWhatCameSince(shown, typed({ oilRunHours: "" }), opened)).toMatchObject({
      value: { oilRunHours: null },
    });
  });

  test("is refused where the oil was changed in between and other hours were typed", () => {
    const changed = { ...opened, oilChangedOn: "2026-11-20", oilRunHours: 0 };
    expect(keepWhatCameSince(shown, typed({ oilRunHours: "4" }), changed)).toMatchObject({
      ok: false,
      error: { fields: { oilRunHours: expect.stringContaining("became 0") } },
    });
    expect(keepWhatCameSince(shown, typed(), changed)).toMatchObject({
      value: { oilChangedOn: "2026-11-20", oilRunHours: 0 },
    });
  });

  test("is refused where both sides gave a date another day, and not where they agree", () => {
    const since = { ...opened, checkDueOn: "2027-06-01" };
    expect(keepWhatCameSince(shown, typed({ checkDueOn: "2027-05-01" }), since)).toMatchObject({
      ok: false,
      error: { fields: { checkDueOn: expect.stringContaining("2027-06-01") } },
    });
    expect(keepWhatCameSince(shown, typed({ checkDueOn: "2027-06-01" }), since).ok).toBe(true);
    expect(keepWhatCameSince(shown, typed({ checkDueOn: "2027-05-01" }), opened)).toMatchObject({
      value: { checkDueOn: "2027-05-01" },
    });
  });
});
