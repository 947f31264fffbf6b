import { expect, test } from "vitest";
import { listOrderLines } from "@/lib/work/order-lines";

const at = (time: string) => new Date(`2026-06-01T${time}:00Z`);
const dayOf = (moment: Date) => moment.toISOString().slice(0, 10);
const nothing = { visits: [], parts: [], masses: [], dayOf };

test("each person of a visit has the time between arriving and leaving", () => {
  const steps = [
    { to: "done", at: at("11:45") },
    { to: "on-the-way", at: at("08:30") },
    { to: "on-site", at: at("09:00") },
  ];
  const lines = listOrderLines({ ...nothing, visits: [{ people: ["Tomas", "Ines"], steps }] });
  expect(lines.map(({ what, quantity, unit, on }) => [what, quantity, unit, on])).toEqual([
    ["Tomas", "2.75", "h", "2026-06-01"],
    ["Ines", "2.75", "h", "2026-06-01"],
  ]);
});

test("an end nobody noted gives no hours, and an arrival nobody noted no line", () => {
  const open = { people: ["Tomas"], steps: [{ to: "on-site", at: at("09:00") }] };
  const never = { people: ["Ines"], steps: [{ to: "done", at: at("09:00") }] };
  const lines = listOrderLines({ ...nothing, visits: [open, never] });
  expect(lines).toMatchObject([{ what: "Tomas", quantity: "" }]);
});

test("parts and masses stand after it, a mass to the gram", () => {
  const lines = listOrderLines({
    ...nothing,
    parts: [{ jobNumber: 1002, on: "2026-06-01", name: "Drier", serial: null }],
    masses: [
      {
        jobNumber: 1002,
        on: "2026-06-01",
        what: "charged",
        refrigerant: "R-410A",
        massKg: 2.5854,
        cylinder: "C-4",
      },
    ],
  });
  expect(lines).toEqual([
    { kind: "part", on: "2026-06-01", job: "1002", what: "Drier", quantity: "1", unit: "piece", detail: "" },
    {
      kind: "refrigerant",
      on: "2026-06-01",
      job: "1002",
      what: "R-410A, charged",
      quantity: "2.585",
      unit: "kg",
      detail: "cylinder C-4",
    },
  ]);
});
