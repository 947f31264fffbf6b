"use client";

import { useEffect, useState } from "react";
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
  const [pressed, setPressed] = useState(none);
  useEffect(() => {
    setPressed((before) => {
      const open = Object.entries(before).filter(([name, key]) => choices?.[name as QuantityName] !== key);
      return open.length === 0 ? none : (Object.fromEntries(open) as UnitChoices);
    });
  }, [choices]);
  const current = { ...(choices ?? none), ...pressed }; // what was pressed counts at once, not when it is on disk
  return {
    choices: current,
    choose: (name: QuantityName, key: string) => {
      setPressed((before) => ({ ...before, [name]: key }));
      void store.kept.put({ name: NAME, value: { ...current, [name]: key } });
    },
    words: (name: QuantityName, wire: number) => quantityWords(name, wire, current),
    both: (name: QuantityName, wire: number) => {
      const other = otherWords(name, wire, current);
      return quantityWords(name, wire, current) + (other ? ` (${other})` : "");
    },
  };
}
export type Units = ReturnType<typeof useUnits>;
