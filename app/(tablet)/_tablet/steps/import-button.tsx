"use client";

import dynamic from "next/dynamic";
import { useState } from "react";
import { Button } from "@/components/ui/button";
import { Dialog } from "@/components/ui/dialog";
import { LoadingLines } from "@/components/ui/progress";

const Import = dynamic(() => import("./import-readings").then((part) => part.ImportReadingsForm), {
  loading: () => <LoadingLines lines={4} />,
});

/** Readings of an instrument that wrote its own record: a file or a paste. */
export function ImportReadings({ vacuum }: { vacuum: boolean }) {
  const [open, setOpen] = useState(false);
  return (
    <Dialog
      wide
      title="Readings from a file"
      lead="A table with a time and what the gauge showed, one reading a line."
      open={open}
      onOpenChange={setOpen}
      trigger={<Button>From a file or a paste</Button>}
    >
      <Import vacuum={vacuum} onDone={() => setOpen(false)} />
    </Dialog>
  );
}
