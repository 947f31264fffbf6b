/** The part of Web Bluetooth that is used. `navigator.bluetooth` fits it where a browser has it; tests put a simulated instrument in its place. */
export interface Radio {
  requestDevice(wanted: {
    readonly filters: readonly { readonly services: readonly number[] }[];
    readonly optionalServices: readonly number[];
  }): Promise<RadioDevice>;
}
export interface RadioDevice extends EventTarget {
  readonly id: string;
  readonly name?: string | undefined;
  readonly gatt?: RadioServer | undefined;
}
export interface RadioServer {
  readonly connected: boolean;
  connect(): Promise<RadioServer>;
  disconnect(): void;
  getPrimaryService(service: number): Promise<RadioService>;
}
export interface RadioService {
  getCharacteristic(characteristic: number): Promise<RadioCharacteristic>;
}
export interface RadioCharacteristic extends EventTarget {
  readonly value?: DataView | undefined;
  startNotifications(): Promise<unknown>;
  readValue(): Promise<DataView>;
}

/** The browser's radio, or null where there is none: other browsers, and addresses without HTTPS. */
export function findRadio(): Radio | null {
  return (globalThis.navigator as { readonly bluetooth?: Radio } | undefined)?.bluetooth ?? null;
}
