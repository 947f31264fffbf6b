"use client";

import { Quantity } from "@/components/ui/quantity";
import { formOf, type QuantityName } from "./quantity-kinds";
import { useUnits } from "./unit-choices";

/** The number the hands wait for, to be read from across the roof; its unit smaller beside it. */
export function LiveNumber({ quantity, wire }: { quantity: QuantityName; wire: number }) {
  const form = formOf(quantity, useUnits().choices);
  return (
    <p aria-live="polite">
      <Quantity live value={form.fromWire(wire)} unit={form.label} digits={form.decimals} />
    </p>
  );
}
