"use client";

import dynamic from "next/dynamic";
import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Dialog } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";
import { importWords } from "@/lib/words/en/import";

const Import = dynamic(() => import("./import-readings").then((part) => part.ImportReadingsForm), {
  loading: () => <LoadingLines lines={4} />,
});

/** Readings of an instrument that wrote its own record: a file or a paste. */
export function ImportReadings({ vacuum }: { vacuum: boolean }) {
  const [open, setOpen] = useState(false);
  return (
    <Dialog
      wide
      title={importWords.readingsFromAFile}
      lead={importWords.aTable}
      open={open}
      onOpenChange={setOpen}
      trigger={<Button>{importWords.fromAFile}</Button>}
    >
      <Import vacuum={vacuum} onDone={() => setOpen(false)} />
    </Dialog>
  );
}
