"use client";

import { Button } from "@/components/ui/button";
import { Banner } from "@/components/ui/notices";
import { frameWords } from "@/lib/words/en/frame";
import { useDevice } from "./device/device-context";

/** A newer program is here. It is offered between jobs and never taken by itself. */
export function ProgramNotice() {
  const { takeOver } = useDevice();
  if (takeOver === null) return null;
  return (
    <Banner kind="note" action={<Button onClick={takeOver}>{frameWords.useItNow}</Button>}>
      {frameWords.newerVersion}
    </Banner>
  );
}
