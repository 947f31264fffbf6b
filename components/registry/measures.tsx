import { Quantity } from "@/components/ui/quantity";
import { fromKg, fromMetre, fromPa, toPa } from "@/lib/hvac";
import type { UnitSystem } from "@/lib/registry/company";
import { writeInches } from "@/lib/registry/line-size";

type Measure = { value: number | null; system: UnitSystem };

/** A mass as the trade prints it: whole pounds and ounces, or kilograms. */
export function Mass({ value, system }: Measure) {
  if (value === null || system === "si") return <Quantity value={value} unit="kg" digits={2} />;
  const ounces = Math.round(fromKg(value, "oz") * 10) / 10;
  return (
    <span className="whitespace-nowrap">
      <Quantity value={Math.floor(ounces / 16)} unit="lb" /> <Quantity value={ounces % 16} unit="oz" digits={1} />
    </span>
  );
}

/** A mass where a scale is read: decimal pounds, or kilograms. */
export function ScaleMass({ value, system }: Measure) {
  const shown = value === null ? null : system === "us" ? fromKg(value, "lb") : value;
  return <Quantity value={shown} unit={system === "us" ? "lb" : "kg"} digits={1} />;
}

export function Length({ value, system }: Measure) {
  const shown = value === null ? null : system === "us" ? fromMetre(value, "ft") : value;
  return <Quantity value={shown} unit={system === "us" ? "ft" : "m"} digits={system === "us" ? 0 : 1} />;
}

/** An outside diameter: as tubing is named in inches, or in millimetres. */
export function LineSize({ value, system }: Measure) {
  if (value === null || system === "si") return <Quantity value={value} unit="mm" digits={1} />;
  return (
    <span className="whitespace-nowrap font-mono">
      {writeInches(value)}
      <span className="ml-1 font-sans text-[0.85em] text-ink-soft">in</span>
    </span>
  );
}

export function DesignPressure({ value, system }: Measure) {
  const shown = value === null ? null : system === "us" ? fromPa(toPa(value, "kPa"), "psi") : value;
  return <Quantity value={shown} unit={system === "us" ? "psig" : "kPa gauge"} />;
}

/** A mass as the refrigerant books keep it, to the gram: kilograms, or decimal pounds. */
export function BookMass({ grams, system, signed = false }: { grams: number; system: UnitSystem; signed?: boolean }) {
  const shown = system === "us" ? fromKg(grams / 1000, "lb") : grams / 1000;
  return (
    <Quantity value={shown} unit={system === "us" ? "lb" : "kg"} digits={system === "us" ? 2 : 3} signed={signed} />
  );
}
