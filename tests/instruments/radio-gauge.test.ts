import { afterEach, beforeEach, describe, expect, test, vi } from "vitest";
import { chooseGauge, RadioGauge, type RadioReading } from "@/lib/instruments/radio-gauge";
import { radioOf, SimulatedGauge } from "./simulated-gauge";

beforeEach(() => void vi.useFakeTimers({ now: 1_800_000_000_000 }));
afterEach(() => void vi.useRealTimers());

async function linked(device: SimulatedGauge) {
  const gauge = new RadioGauge((await chooseGauge(radioOf(device)))! as SimulatedGauge);
  const heard: RadioReading[] = [];
  gauge.listen((reading) => heard.push(reading));
  await gauge.link();
  return { gauge, heard };
}

describe("a gauge by radio", () => {
  test("tells each pressure as it was received, with the temperature heard just before", async () => {
    const device = new SimulatedGauge();
    const { gauge, heard } = await linked(device);
    device.sayPa(642);
    device.sayCelsius(2135);
    vi.advanceTimersByTime(1000);
    device.sayPa(643);
    vi.advanceTimersByTime(11_000);
    device.sayPa(644); // the temperature is too old by now to be this reading's
    expect(heard).toEqual([
      { atMs: 1_800_000_000_000, pressureAbsPa: 64.2 },
      { atMs: 1_800_000_001_000, pressureAbsPa: 64.3, temperatureC: 21.35 },
      { atMs: 1_800_000_012_000, pressureAbsPa: 64.4 },
    ]);
    expect(gauge.standing).toMatchObject({ name: "Bench gauge 7", link: "linked", batteryPercent: 82 });
  });

  test("makes nothing up while the link is lost, and goes on by itself when the instrument is back", async () => {
    const device = new SimulatedGauge();
    const { gauge, heard } = await linked(device);
    device.sayPa(642);
    device.reachable = false;
    device.drop();
    expect(gauge.standing).toMatchObject({ link: "lost", lostAtMs: 1_800_000_000_000 });
    await vi.advanceTimersByTimeAsync(30_000);
    expect(device.connects).toBeGreaterThan(3);
    expect(heard).toHaveLength(1);
    device.reachable = true;
    await vi.advanceTimersByTimeAsync(8_000);
    expect(gauge.standing).toMatchObject({ link: "linked", lostAtMs: null });
    device.sayPa(700);
    expect(heard.map(({ pressureAbsPa }) => pressureAbsPa)).toEqual([64.2, 70]); // once, not once for each link
  });

  test("does without a thermometer and a battery", async () => {
    const device = new SimulatedGauge("Plain", { temperature: false, battery: false });
    const { gauge, heard } = await linked(device);
    device.sayPa(10);
    expect(heard).toEqual([{ atMs: 1_800_000_000_000, pressureAbsPa: 1 }]);
    expect(gauge.standing.batteryPercent).toBeNull();
  });

  test("says no more and looks for nothing once it was let go", async () => {
    const device = new SimulatedGauge();
    const { gauge, heard } = await linked(device);
    gauge.leave();
    const { connects } = device;
    await vi.advanceTimersByTimeAsync(60_000);
    device.pressure.listening = true;
    device.sayPa(642);
    expect(heard).toEqual([]);
    expect(device.connects).toBe(connects);
  });

  test("a choice closed without choosing is no fault", async () => {
    const closed = { requestDevice: () => Promise.reject(new DOMException("closed", "NotFoundError")) };
    expect(await chooseGauge(closed)).toBeNull();
  });
});
