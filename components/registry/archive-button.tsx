"use client";

import { useTransition } from "react";
import { Button } from "@/components/ui/button";
import { useUndo } from "@/components/ui/undo";
import type { Result } from "@/lib/result";

/** Puts a thing away or brings it back at once, and offers the way back instead of asking first. */
export function ArchiveButton(props: {
  action: (form: FormData) => Promise<Result<unknown, unknown>>;
  hidden: Readonly<Record<string, string>>;
  archived: boolean;
  name: string;
  words?: { away: string; back: string; isAway: string; isBack: string };
}) {
  const [pending, start] = useTransition();
  const said = useUndo();
  const words = props.words ?? { away: "Archive", back: "Bring back", isAway: "archived", isBack: "is back" };

  function set(archived: boolean, offerUndo: boolean) {
    const form = new FormData();
    for (const [name, value] of Object.entries(props.hidden)) form.set(name, value);
    form.set("archived", String(archived));
    start(async () => {
      const outcome = await props.action(form);
      if (!outcome.ok) said(`${props.name} could not be changed. Load the page again.`);
      else if (offerUndo) said(`${props.name} ${archived ? words.isAway : words.isBack}`, () => set(!archived, false));
      else said(`${props.name} ${archived ? words.isAway : words.isBack}`);
    });
  }
  return (
    <Button pending={pending} onClick={() => set(!props.archived, true)}>
      {props.archived ? words.back : words.away}
    </Button>
  );
}
