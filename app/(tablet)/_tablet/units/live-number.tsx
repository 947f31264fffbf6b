"use client";

import { Quantity } from "@/components/ui/quantity";
import { useForm } from "../form/form-context";
import { formOf, type QuantityName } from "./quantity-kinds";
import { useUnits } from "./unit-choices";

/** The number the hands wait for, to be read from across the roof; its unit smaller beside it. */
export function LiveNumber({ quantity, wire }: { quantity: QuantityName; wire: number }) {
  const form = formOf(quantity, useUnits().choices);
  const { _live: live } = useForm().draft; // an instrument writes every second: read on request, not aloud
  const isWritten = live !== undefined && live !== null;
  return (
    <p aria-live={isWritten ? "off" : "polite"}>
      <Quantity live value={form.fromWire(wire)} unit={form.label} digits={form.decimals} />
    </p>
  );
}
