import type { Page } from "@playwright/test";

declare global {
  interface Window {
    simulatedGauge: { speak(tenthsOfPa: number): void; lose(): void; comeBack(): void };
  }
}

/** Puts an Environmental Sensing instrument where the browser's Bluetooth would be, before the page's own scripts run. */
export async function simulateGauge(page: Page): Promise<void> {
  await page.addInitScript(() => {
    class Characteristic extends EventTarget {
      value: DataView | undefined;
      listening = false;
      async startNotifications() {
        this.listening = true;
      }
      async readValue() {
        return this.value;
      }
      say(bytes: ArrayBuffer) {
        if (!this.listening) return;
        this.value = new DataView(bytes);
        this.dispatchEvent(new Event("characteristicvaluechanged"));
      }
    }
    const [pressure, temperature, battery] = [new Characteristic(), new Characteristic(), new Characteristic()];
    battery.value = new DataView(Uint8Array.of(82).buffer);
    const offered: Record<number, Record<number, Characteristic>> = {
      6170: { 10861: pressure, 10862: temperature },
      6159: { 10777: battery },
    };
    let [reachable, tenths] = [true, 0];
    const device = Object.assign(new EventTarget(), { id: "simulated", name: "Bench gauge 7", gatt: {} });
    Object.assign(device.gatt, {
      async connect() {
        if (!reachable) throw new DOMException("out of reach", "NetworkError");
        return device.gatt;
      },
      disconnect: () => undefined,
      async getPrimaryService(service: number) {
        return { getCharacteristic: async (characteristic: number) => offered[service]![characteristic] };
      },
    });
    Object.defineProperty(navigator, "bluetooth", { value: { requestDevice: async () => device } });
    setInterval(() => {
      if (tenths === 0) return;
      temperature.say(Uint8Array.of(0x34, 0x08).buffer); // 21.00 °C
      const bytes = new DataView(new ArrayBuffer(4));
      bytes.setUint32(0, tenths, true);
      pressure.say(bytes.buffer);
    }, 500);
    window.simulatedGauge = {
      speak: (next) => {
        tenths = next;
      },
      lose() {
        reachable = false;
        for (const each of [pressure, temperature, battery]) each.listening = false;
        device.dispatchEvent(new Event("gattserverdisconnected"));
      },
      comeBack: () => {
        reachable = true;
      },
    };
  });
}
