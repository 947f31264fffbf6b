"use client";

import { useCallback, useEffect, useState } from "react";
import { confirmPerson, diskTrouble, keptPerson, lastSlug, type Standing } from "@/lib/sync/device";
import { hasSignInChanged, settleSignInChange, watchSignInChange } from "@/lib/sync/sign-in-mark";
import { addressOf } from "../place";
import { openTablet, type Tablet } from "./device-context";

/** Who is at this tablet in the company of the address: kept people at once, then what the server says. */
export function useTablet(slug: string | null): {
  tablet: Tablet;
  standing: Standing | undefined;
  someoneElse: () => void;
} {
  const [tablet] = useState(openTablet);
  const [standing, setStanding] = useState<Standing>();
  const settle = useCallback((next: Standing) => setStanding((now) => unlessSame(now, next)), []);

  const confirm = useCallback(async () => {
    const { store, ask } = tablet;
    const company = slug ?? (await lastSlug(store));
    if (company === null) return settle({ at: "nobody", because: "signed-out" });
    if (slug === null) return window.history.replaceState(null, "", addressOf(company, { screen: "today" }));
    const changed = hasSignInChanged();
    const kept = changed ? null : await keptPerson(store, slug);
    if (kept) setStanding((now) => now ?? { at: "kept", person: kept, because: "fresh" });
    const next = await confirmPerson(store, slug, ask, changed);
    if (next.at === "confirmed" || (next.at === "nobody" && next.because !== "no-network")) settleSignInChange();
    settle(next);
  }, [tablet, slug, settle]);

  useEffect(() => {
    const ask = () =>
      void confirm().catch((cause: unknown) => {
        console.error(cause);
        setStanding((now) => now ?? { at: "nobody", because: diskTrouble(cause) }); // whoever is at work goes on
      });
    ask();
    window.addEventListener("online", ask);
    return () => window.removeEventListener("online", ask);
  }, [confirm]);
  useEffect(() => watchSignInChange(window, () => window.location.reload()), []);
  const someoneElse = useCallback(() => window.location.reload(), []);
  return { tablet, standing, someoneElse };
}

/** The same person stays the same object: what is being sent for them goes on undisturbed. */
function unlessSame(now: Standing | undefined, next: Standing): Standing {
  if (now === undefined || now.at === "nobody" || next.at === "nobody") return next;
  return JSON.stringify(now.person) === JSON.stringify(next.person) ? { ...next, person: now.person } : next;
}
