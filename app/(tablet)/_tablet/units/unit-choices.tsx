"use client";

import { useEffect, useState } from "react";
import { useDevice } from "../device/device-context";
import { useLive } from "../device/use-live";
import {
  differenceWords,
  METRIC,
  otherWords,
  paceWords,
  type QuantityName,
  quantityWords,
  type UnitChoices,
} from "./quantity-kinds";

const NAME = "units";
const none: UnitChoices = {};

/** The units of the person at the tablet; choosing one on the pad changes it everywhere. */
export function useUnits() {
  const { store, desk, person } = useDevice();
  const name = `${NAME} ${desk.person}`;
  const choices = useLive(name, ["kept"], async () => {
    const kept = (await store.kept.get(name)) ?? (await store.kept.get(NAME)); // an earlier program kept them for the tablet
    return (kept?.value as UnitChoices | undefined) ?? none;
  });
  const [pressed, setPressed] = useState(none);
  useEffect(() => {
    setPressed((before) => {
      const open = Object.entries(before).filter(([name, key]) => choices?.[name as QuantityName] !== key);
      return open.length === 0 ? none : (Object.fromEntries(open) as UnitChoices);
    });
  }, [choices]);
  const usual = person.units === "si" ? METRIC : none;
  const current = { ...usual, ...(choices ?? none), ...pressed }; // what was pressed counts at once, not when it is on disk
  return {
    choices: current,
    choose: (quantity: QuantityName, key: string) => {
      setPressed((before) => ({ ...before, [quantity]: key }));
      void store.kept.put({ name, value: { ...(choices ?? none), ...pressed, [quantity]: key } });
    },
    /** A difference of two gauge pressures, "1.2 psi". */
    pressureDifference: (kPa: number) => differenceWords(kPa, current),
    /** A change of vacuum in its unit, to two digits: "1.2 micron" (a minute). */
    pace: (micron: number) => paceWords(micron, current),
    words: (name: QuantityName, wire: number) => quantityWords(name, wire, current),
    both: (name: QuantityName, wire: number) => {
      const other = otherWords(name, wire, current);
      return quantityWords(name, wire, current) + (other ? ` (${other})` : "");
    },
  };
}
export type Units = ReturnType<typeof useUnits>;
