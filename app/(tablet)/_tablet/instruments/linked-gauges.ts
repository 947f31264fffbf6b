"use client";

import { useCallback, useSyncExternalStore } from "react";
import { findRadio, type Radio } from "@/lib/instruments/radio";
import { chooseGauge, RadioGauge, type RadioStanding } from "@/lib/instruments/radio-gauge";
import { instrumentsWords } from "@/lib/words/en/instruments";

/** Gauges linked to this page, the first the step's own, a second one to compare it with. They stay from step to step. */
let gauges: readonly RadioGauge[] = [];
const watchers = new Set<() => void>();
const none: readonly RadioGauge[] = [];

function hold(next: readonly RadioGauge[]): void {
  gauges = next;
  for (const changed of watchers) changed();
}

export const linkedGauges = (): readonly RadioGauge[] => gauges;

export function useLinkedGauges(): readonly RadioGauge[] {
  const watch = useCallback((changed: () => void) => {
    watchers.add(changed);
    return () => watchers.delete(changed);
  }, []);
  return useSyncExternalStore(
    watch,
    () => gauges,
    () => none,
  );
}

export function useStanding(gauge: RadioGauge): RadioStanding {
  return useSyncExternalStore(
    gauge.watch,
    () => gauge.standing,
    () => gauge.standing,
  );
}

export const hasRadio = (): boolean => findRadio() !== null;

/** Lets the person choose an instrument and links it; what stood in the way, in words, or null. */
export async function linkGauge(radio: Radio | null = findRadio()): Promise<string | null> {
  if (radio === null) return instrumentsWords.noBluetooth;
  try {
    const device = await chooseGauge(radio);
    if (!device) return null;
    const gauge = new RadioGauge(device);
    try {
      await gauge.link();
    } catch (cause) {
      gauge.leave();
      throw cause;
    }
    hold([...gauges, gauge]);
    return null;
  } catch (cause) {
    console.error(cause);
    return instrumentsWords.notLinked;
  }
}

export function letGo(gauge: RadioGauge): void {
  gauge.leave();
  hold(gauges.filter((each) => each !== gauge));
}
