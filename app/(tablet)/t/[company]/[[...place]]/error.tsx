"use client";

import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";

export default function TabletError({ reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main data-frame="tablet" id="work" className="mx-auto grid max-w-3xl gap-4 px-5 py-10">
      <h1 className="text-title">This screen stopped</h1>
      <ErrorNotice
        happened="Something went wrong while showing it."
        safe="What the tablet said was saved here is on this device and will be sent."
        todo="Open it again. If it stops once more, close the page and open it anew."
        action={
          <Button kind="action" onClick={reset}>
            Open it again
          </Button>
        }
      />
    </main>
  );
}
