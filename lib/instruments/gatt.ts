/*
 * What an instrument with Bluetooth's open Environmental Sensing Service sends, byte for byte.
 * @source Bluetooth SIG, Assigned Numbers (services, characteristics); GATT Specification Supplement, Pressure, Temperature,
 * Battery Level. The numbers and layouts were read in public renderings of these; the supplement itself is the authority.
 */

export const ENVIRONMENTAL_SENSING = 0x181a;
export const PRESSURE = 0x2a6d;
export const TEMPERATURE = 0x2a6e;
export const BATTERY_SERVICE = 0x180f;
export const BATTERY_LEVEL = 0x2a19;

/** The smallest step of the Pressure characteristic. */
export const PRESSURE_STEP_PA = 0.1;

/** Pressure in Pa, a multiple of 0.1: an unsigned 32-bit number, lowest byte first. Null when the bytes are not one. */
export function readPressurePa(bytes: DataView): number | null {
  return bytes.byteLength === 4 ? bytes.getUint32(0, true) / 10 : null;
}

const NOT_KNOWN = -0x8000;
const COLDEST_CENTI_C = -27_315;

/** Temperature in °C, a multiple of 0.01: a signed 16-bit number, lowest byte first. Null for "value is not known". */
export function readTemperatureC(bytes: DataView): number | null {
  if (bytes.byteLength !== 2) return null;
  const hundredths = bytes.getInt16(0, true);
  return hundredths === NOT_KNOWN || hundredths < COLDEST_CENTI_C ? null : hundredths / 100;
}

/** Charge of the battery in percent; null for a number a battery cannot have. */
export function readBatteryPercent(bytes: DataView): number | null {
  const percent = bytes.byteLength === 1 ? bytes.getUint8(0) : 101;
  return percent <= 100 ? percent : null;
}
