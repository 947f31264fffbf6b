import {
  BATTERY_LEVEL,
  BATTERY_SERVICE,
  ENVIRONMENTAL_SENSING,
  PRESSURE,
  readBatteryPercent,
  readPressurePa,
  readTemperatureC,
  TEMPERATURE,
} from "./gatt";
import type { Radio, RadioCharacteristic, RadioDevice, RadioServer } from "./radio";

/** One pressure as it was received. A temperature heard shortly before stands beside it. */
export interface RadioReading {
  /** Wall clock of this device at the moment of receiving, whole milliseconds. */
  readonly atMs: number;
  readonly pressureAbsPa: number;
  readonly temperatureC?: number;
}

export interface RadioStanding {
  readonly name: string;
  /** "lost": it is being looked for; nothing is made up for the time in between. */
  readonly link: "linking" | "linked" | "lost";
  readonly lostAtMs: number | null;
  readonly batteryPercent: number | null;
  readonly last: RadioReading | null;
}

const TEMPERATURE_FRESH_MS = 10_000;
const TRY_AGAIN_MS = [500, 1_000, 2_000, 4_000, 8_000] as const; // then always the last

/** Asks the person which instrument, as browsers demand a press and a choice for it; null when none was chosen. */
export async function chooseGauge(radio: Radio): Promise<RadioDevice | null> {
  try {
    return await radio.requestDevice({
      filters: [{ services: [ENVIRONMENTAL_SENSING] }],
      optionalServices: [BATTERY_SERVICE],
    });
  } catch (cause) {
    if ((cause as { name?: string }).name === "NotFoundError") return null; // closed without choosing
    throw cause;
  }
}

/** A gauge over the air: tells each pressure as it comes, and looks for the instrument again when the link is lost. */
export class RadioGauge {
  #standing: RadioStanding;
  readonly #device: RadioDevice;
  readonly #now: () => number;
  readonly #watchers = new Set<() => void>();
  readonly #listeners = new Set<(reading: RadioReading) => void>();
  #temperature: { atMs: number; celsius: number } | null = null;
  #timer: ReturnType<typeof setTimeout> | undefined;
  #tries = 0;
  #left = false;

  constructor(device: RadioDevice, now: () => number = Date.now) {
    this.#device = device;
    this.#now = now;
    const name = device.name?.trim() || "Gauge without a name";
    this.#standing = { name, link: "linking", lostAtMs: null, batteryPercent: null, last: null };
    device.addEventListener("gattserverdisconnected", this.#onLost);
  }

  get standing(): RadioStanding {
    return this.#standing;
  }
  readonly watch = (changed: () => void): (() => void) => {
    this.#watchers.add(changed);
    return () => this.#watchers.delete(changed);
  };
  listen(take: (reading: RadioReading) => void): () => void {
    this.#listeners.add(take);
    return () => this.#listeners.delete(take);
  }

  /** Links for the first time; what goes wrong then is thrown, since the person is looking. */
  async link(): Promise<void> {
    await this.#subscribe();
  }

  /** Ends the link for good. */
  leave(): void {
    this.#left = true;
    clearTimeout(this.#timer);
    this.#device.removeEventListener("gattserverdisconnected", this.#onLost);
    this.#device.gatt?.disconnect();
  }

  async #subscribe(): Promise<void> {
    const server = await this.#device.gatt?.connect();
    if (!server) throw new Error("the instrument gives no way to connect");
    const sensing = await server.getPrimaryService(ENVIRONMENTAL_SENSING);
    await hear(await sensing.getCharacteristic(PRESSURE), this.#takePressure);
    await optional(async () => hear(await sensing.getCharacteristic(TEMPERATURE), this.#takeTemperature));
    await optional(() => this.#hearBattery(server));
    this.#tries = 0;
    this.#stand({ link: "linked", lostAtMs: null });
  }

  async #hearBattery(server: RadioServer): Promise<void> {
    const level = await (await server.getPrimaryService(BATTERY_SERVICE)).getCharacteristic(BATTERY_LEVEL);
    const take = (bytes: DataView) => this.#stand({ batteryPercent: readBatteryPercent(bytes) });
    take(await level.readValue());
    await hear(level, take);
  }

  readonly #takePressure = (bytes: DataView): void => {
    const pressureAbsPa = readPressurePa(bytes);
    if (pressureAbsPa === null || this.#left) return;
    const atMs = Math.round(this.#now());
    const fresh = this.#temperature !== null && atMs - this.#temperature.atMs <= TEMPERATURE_FRESH_MS;
    const last = { atMs, pressureAbsPa, ...(fresh && { temperatureC: this.#temperature!.celsius }) };
    for (const take of this.#listeners) take(last);
    this.#stand({ last });
  };
  readonly #takeTemperature = (bytes: DataView): void => {
    const celsius = readTemperatureC(bytes);
    this.#temperature = celsius === null ? null : { atMs: this.#now(), celsius };
  };

  readonly #onLost = (): void => {
    if (this.#left) return;
    if (this.#standing.link !== "lost") this.#stand({ link: "lost", lostAtMs: Math.round(this.#now()) });
    this.#lookAgain();
  };
  #lookAgain(): void {
    clearTimeout(this.#timer);
    const waitMs = TRY_AGAIN_MS[Math.min(this.#tries, TRY_AGAIN_MS.length - 1)]!;
    this.#tries += 1;
    this.#timer = setTimeout(() => {
      this.#subscribe().catch(() => {
        if (!this.#left) this.#lookAgain();
      });
    }, waitMs);
  }

  #stand(change: Partial<RadioStanding>): void {
    this.#standing = { ...this.#standing, ...change };
    for (const changed of this.#watchers) changed();
  }
}

const heard = new WeakMap<RadioCharacteristic, (bytes: DataView) => void>();

/** Notifications of a characteristic; heard once, also where a browser gives the same object again after a loss. */
async function hear(characteristic: RadioCharacteristic, take: (bytes: DataView) => void): Promise<void> {
  if (heard.has(characteristic)) heard.set(characteristic, take);
  else {
    heard.set(characteristic, take);
    characteristic.addEventListener("characteristicvaluechanged", () => {
      if (characteristic.value) heard.get(characteristic)?.(characteristic.value);
    });
  }
  await characteristic.startNotifications();
}

/** Temperature and battery may be missing from an instrument. */
async function optional(work: () => Promise<void>): Promise<void> {
  await work().catch(() => undefined);
}
