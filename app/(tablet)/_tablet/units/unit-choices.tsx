"use client";

import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import { otherWords, type QuantityName, quantityWords, type UnitChoices } from "./quantity-kinds";

const NAME = "units";
const none: UnitChoices = {};

/** The units chosen on this tablet; choosing one on the pad changes it everywhere. */
export function useUnits() {
  const { store } = useDevice();
  const choices = useLive(
    NAME,
    ["kept"],
    async () => ((await store.kept.get(NAME))?.value as UnitChoices | undefined) ?? none,
  );
  const current = choices ?? none;
  return {
    choices: current,
    choose: (name: QuantityName, key: string) =>
      store.kept.put({ name: NAME, value: { ...current, [name]: key } }).then(() => undefined),
    words: (name: QuantityName, wire: number) => quantityWords(name, wire, current),
    both: (name: QuantityName, wire: number) => {
      const other = otherWords(name, wire, current);
      return quantityWords(name, wire, current) + (other ? ` (${other})` : "");
    },
  };
}
export type Units = ReturnType<typeof useUnits>;
