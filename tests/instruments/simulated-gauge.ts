import { BATTERY_LEVEL, BATTERY_SERVICE, ENVIRONMENTAL_SENSING, PRESSURE, TEMPERATURE } from "@/lib/instruments/gatt";
import type { Radio, RadioCharacteristic, RadioDevice, RadioServer } from "@/lib/instruments/radio";

class Characteristic extends EventTarget implements RadioCharacteristic {
  value: DataView | undefined;
  listening = false;
  async startNotifications() {
    this.listening = true;
  }
  async readValue() {
    return this.value ?? new DataView(new ArrayBuffer(0));
  }
  say(...bytes: number[]) {
    if (!this.listening) return;
    this.value = new DataView(Uint8Array.from(bytes).buffer);
    this.dispatchEvent(new Event("characteristicvaluechanged"));
  }
}

/** An instrument at the boundary of Web Bluetooth: it can fall silent, be out of reach and come back. */
export class SimulatedGauge extends EventTarget implements RadioDevice {
  readonly id = "simulated";
  reachable = true;
  connected = false;
  connects = 0;
  readonly pressure = new Characteristic();
  readonly temperature = new Characteristic();
  readonly battery = new Characteristic();
  readonly gatt: RadioServer;

  constructor(
    readonly name = "Bench gauge 7",
    has: { temperature?: boolean; battery?: boolean } = {},
  ) {
    super();
    this.battery.value = new DataView(Uint8Array.of(82).buffer);
    const { temperature = true, battery = true } = has;
    const offered: Record<number, Record<number, Characteristic>> = {
      [ENVIRONMENTAL_SENSING]: { [PRESSURE]: this.pressure, ...(temperature && { [TEMPERATURE]: this.temperature }) },
      ...(battery && { [BATTERY_SERVICE]: { [BATTERY_LEVEL]: this.battery } }),
    };
    const found = <T>(thing: T | undefined) => {
      if (!thing) throw new DOMException("nothing of the kind", "NotFoundError");
      return thing;
    };
    const gauge = this;
    this.gatt = {
      get connected() {
        return gauge.connected;
      },
      async connect() {
        gauge.connects += 1;
        if (!gauge.reachable) throw new DOMException("out of reach", "NetworkError");
        gauge.connected = true;
        return gauge.gatt;
      },
      disconnect() {
        gauge.drop();
      },
      async getPrimaryService(service) {
        const characteristics = found(offered[service]);
        return { getCharacteristic: async (uuid) => found(characteristics[uuid]) };
      },
    };
  }
  sayPa(tenths: number) {
    this.pressure.say(tenths & 255, (tenths >> 8) & 255, (tenths >> 16) & 255, (tenths >>> 24) & 255);
  }
  sayCelsius(hundredths: number) {
    this.temperature.say(hundredths & 255, (hundredths >> 8) & 255);
  }
  drop() {
    this.connected = false;
    for (const each of [this.pressure, this.temperature, this.battery]) each.listening = false;
    this.dispatchEvent(new Event("gattserverdisconnected"));
  }
}

export const radioOf = (device: RadioDevice): Radio => ({ requestDevice: async () => device });
