import { describe, expect, test } from "vitest";
import { type KitCylinder, type KitTool, listToolWarnings, roomToRecover } from "@/lib/work/own-kit";

const day = "2026-07-01";
const a2l = { refrigerant: { name: "R-32", safetyClass: "A2L" }, fullChargeKg: 3 };
const a1 = { refrigerant: { name: "R-410A", safetyClass: "A1" }, fullChargeKg: 3 };
const tool = (change: Partial<KitTool>): KitTool => ({
  kind: "recovery-machine",
  name: "Machine 1",
  calibrationDueOn: null,
  checkDueOn: null,
  doubtedOn: null,
  oilRunHours: null,
  ratedFor: ["A1"],
  ...change,
});
const cylinder = (change: Partial<KitCylinder>): KitCylinder => ({
  label: "C-1",
  contents: "empty",
  refrigerant: null,
  waterCapacityKg: 21.6,
  tareKg: 12.5,
  contentsKg: 0,
  requalifyBy: "2028-01-31",
  forFlammables: false,
  refillable: true,
  ...change,
});

describe("one's own tools before a job", () => {
  test("are named where they are out of date, their oil is old or they are not rated for the refrigerant", () => {
    const tools = [
      tool({}),
      tool({ kind: "pump", name: "Pump 2", oilRunHours: 12.34, ratedFor: [] }),
      tool({ kind: "vacuum-gauge", name: "Gauge 3", calibrationDueOn: "2026-06-30", ratedFor: [] }),
      tool({ kind: "scale", name: "Scale 4", calibrationDueOn: day, ratedFor: [] }),
    ];
    expect(listToolWarnings(tools, a2l, day)).toEqual([
      "Machine 1: not rated for class A2L",
      "Pump 2: oil has run 12.3 h",
      "Gauge 3: calibration ran out on 2026-06-30",
    ]);
    expect(listToolWarnings([tool({})], a1, day)).toEqual([]);
  });
});

describe("room to recover into", () => {
  test("is counted by liquid density over the cylinders that may be filled", () => {
    const half = cylinder({ label: "C-2", contents: "recovered", refrigerant: "R-410A", contentsKg: 5 });
    const { roomKg, unfit } = roomToRecover([cylinder({}), half], a1, day);
    // 0.8 x 21.6 kg of water x the liquid's specific gravity at 77 F (1.06 for R-410A, refrigerant tables), twice, less what is in it
    expect(roomKg).toBeGreaterThan(2 * 0.8 * 21.6 * 1.03 - 5);
    expect(roomKg).toBeLessThan(2 * 0.8 * 21.6 * 1.08 - 5);
    expect(unfit).toEqual([]);
  });

  test("leaves out, and says why, what may not be filled; what holds something else is not meant at all", () => {
    const cylinders = [
      cylinder({ label: "old", requalifyBy: "2026-06-30", forFlammables: true }),
      cylinder({ label: "unread", requalifyBy: null, forFlammables: true }),
      cylinder({ label: "plain" }),
      cylinder({ label: "other", contents: "recovered", refrigerant: "R-410A", contentsKg: 4, forFlammables: true }),
      cylinder({ label: "new gas", contents: "new", refrigerant: "R-32", contentsKg: 4, forFlammables: true }),
    ];
    expect(roomToRecover(cylinders, a2l, day)).toEqual({
      roomKg: 0,
      fit: [],
      unfit: [
        "old: requalification ran out on 2026-06-30",
        "unread: requalification not known",
        "plain: not marked for flammables",
      ],
    });
  });

  test("is not known while the refrigerant is not", () => {
    expect(
      roomToRecover([cylinder({ forFlammables: true })], { refrigerant: null, fullChargeKg: 3 }, day).roomKg,
    ).toBeNull();
  });
});
