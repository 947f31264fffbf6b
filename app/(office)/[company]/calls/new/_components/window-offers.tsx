"use client";

import { useRef, useState } from "react";
import { Button } from "@/components/ui/button";
import type { WindowOffer } from "@/lib/work/offer";
import { offerCall } from "../actions";

type State = "idle" | "asking" | "failed" | readonly WindowOffer[];

/** While the caller is still talking: the windows that really can be kept, put into the form by one press. */
export function WindowOffers({ company, siteId }: { company: string; siteId: string }) {
  const [state, setState] = useState<State>("idle");
  const [taken, setTaken] = useState<string | null>(null);
  const box = useRef<HTMLDivElement>(null);
  const fieldOf = (name: string) => {
    const found = box.current?.closest("form")?.elements.namedItem(name);
    return found instanceof HTMLInputElement || found instanceof HTMLSelectElement || found instanceof RadioNodeList
      ? found
      : null;
  };

  async function ask() {
    setState("asking");
    setTaken(null);
    const answer = await offerCall(company, {
      siteId,
      circuitId: fieldOf("circuitId")?.value || null,
      minutes: Number(fieldOf("plannedMinutes")?.value) || 120,
      urgency: fieldOf("urgency")?.value || "soon",
    }).catch(() => null);
    setState(answer ?? "failed");
  }

  function take({ day, from, to, words }: WindowOffer) {
    for (const [name, value] of [
      ["windowDay", day],
      ["windowFrom", from],
      ["windowTo", to],
    ] as const) {
      const field = fieldOf(name);
      if (field) field.value = value;
    }
    setTaken(words);
  }

  return (
    <div ref={box} className="grid gap-2">
      <div>
        <Button onClick={() => void ask()} pending={state === "asking"} pendingWord="Looking">
          Which windows can be kept?
        </Button>
      </div>
      <div role="status" className="grid gap-1">
        {state === "failed" && <p className="text-refused">The planner did not answer. Ask again, or type a window.</p>}
        {Array.isArray(state) && state.length === 0 && (
          <p>No window of the next days can be kept as things stand. Save the call and plan it on the board.</p>
        )}
        {taken && <p className="text-small text-ink-soft">Promised below: {taken}</p>}
      </div>
      {Array.isArray(state) && state.length > 0 && (
        <ul className="grid gap-1">
          {(state as readonly WindowOffer[]).map((offer) => (
            <li key={offer.words}>
              <button
                type="button"
                aria-pressed={taken === offer.words}
                onClick={() => take(offer)}
                className="flex min-h-(--control) w-full flex-wrap items-baseline justify-between gap-x-4 rounded-control border border-edge bg-raised px-3 py-1 text-left hover:bg-sunk aria-pressed:border-action aria-pressed:bg-sunk"
              >
                <span className="font-semibold tabular-nums">{offer.words}</span>
                <span className="text-small text-ink-soft">{offer.detail}</span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  );
}
