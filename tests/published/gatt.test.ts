import { describe, expect, test } from "vitest";
import { readBatteryPercent, readPressurePa, readTemperatureC } from "@/lib/instruments/gatt";

const bytes = (...list: number[]) => new DataView(Uint8Array.from(list).buffer);

/*
 * Bluetooth SIG, GATT Specification Supplement: Pressure is a uint32 in steps of 0.1 Pa; Temperature a sint16 in steps of 0.01 °C, where
 * 0x8000 is "value is not known"; Battery Level a uint8 in percent. Multi-byte numbers go lowest byte first (Core Specification,
 * Vol 3, Part G, 2.4). The bytes below are written out by hand from these definitions.
 */
describe("what an Environmental Sensing instrument sends", () => {
  test.each([
    { sent: [0x00, 0x00, 0x00, 0x00], pa: 0 },
    { sent: [0x01, 0x00, 0x00, 0x00], pa: 0.1 },
    { sent: [0x82, 0x02, 0x00, 0x00], pa: 64.2 }, // 0x0282 = 642
    { sent: [0x02, 0x76, 0x0f, 0x00], pa: 101_325 }, // 0x000f7602 = 1 013 250, a standard atmosphere
    { sent: [0xff, 0xff, 0xff, 0xff], pa: 429_496_729.5 },
  ])("pressure $sent is $pa Pa", ({ sent, pa }) => {
    expect(readPressurePa(bytes(...sent))).toBe(pa);
  });
  test.each([
    { sent: [0x00, 0x00], celsius: 0 },
    { sent: [0x34, 0x08], celsius: 21 }, // 0x0834 = 2100
    { sent: [0xff, 0xff], celsius: -0.01 },
    { sent: [0x4d, 0x95], celsius: -273.15 }, // the lowest allowed
    { sent: [0xff, 0x7f], celsius: 327.67 }, // the highest
    { sent: [0x00, 0x80], celsius: null }, // "value is not known"
    { sent: [0x4c, 0x95], celsius: null }, // prohibited: colder than can be
  ])("temperature $sent is $celsius °C", ({ sent, celsius }) => {
    expect(readTemperatureC(bytes(...sent))).toBe(celsius);
  });
  test.each([
    { sent: [0], percent: 0 },
    { sent: [100], percent: 100 },
    { sent: [101], percent: null },
  ])("battery $sent is $percent percent", ({ sent, percent }) => {
    expect(readBatteryPercent(bytes(...sent))).toBe(percent);
  });
  test("another length is no value, never a guess", () => {
    for (const length of [0, 1, 3, 5]) {
      expect(readPressurePa(bytes(...Array<number>(length).fill(1)))).toBeNull();
      if (length !== 2) expect(readTemperatureC(bytes(...Array<number>(length).fill(1)))).toBeNull();
    }
    expect(readBatteryPercent(bytes())).toBeNull();
  });
});
