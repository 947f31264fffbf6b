"use client";

import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Sheet } from "@/components/ui/dialog";
import type { EntryContent, StepId } from "@/lib/hvac/procedure";
import { cannotDoWords } from "@/lib/words/en/cannot-do";
import { CannotDoForm, type WayOut } from "./cannot-do-form";
import { useJobHere } from "./job-context";
import { listWaysOut } from "./ways-out";

/** What to do when the step cannot be done: every honest way, and nothing else. */
export function CannotDo({ step }: { step: StepId }) {
  const { job } = useJobHere();
  const [open, setOpen] = useState(false);
  const [way, setWay] = useState<WayOut | null>(null);
  const ways = listWaysOut(step, job);
  function change(next: boolean) {
    setOpen(next);
    if (!next) setWay(null);
  }
  async function record(content: EntryContent) {
    const problems = await job.record(content);
    if (problems.length === 0) change(false);
    return problems;
  }
  return (
    <Sheet
      side="bottom"
      title={way ? way.title : cannotDoWords.cannotDoThis}
      lead={way ? way.lead : cannotDoWords.chooseWhatIsSo}
      open={open}
      onOpenChange={change}
      trigger={<Button>{cannotDoWords.cannotDoThis}</Button>}
    >
      {way ? (
        <CannotDoForm way={way} step={step} onRecord={record} onBack={() => setWay(null)} />
      ) : (
        <ul className="grid border-t border-hairline">
          {ways.map((each) => (
            <li key={each.key} className="border-b border-hairline">
              <button
                type="button"
                className="grid min-h-16 w-full grid-cols-[1fr_auto] items-center gap-x-4 py-2 text-left hover:bg-sunk"
                onClick={() => setWay(each)}
              >
                <span className="grid">
                  <span className="font-semibold">{each.title}</span>
                  <span className="text-small text-ink-soft">{each.lead}</span>
                </span>
                <span aria-hidden="true" className="text-title text-ink-soft">
                  ›
                </span>
              </button>
            </li>
          ))}
        </ul>
      )}
    </Sheet>
  );
}
