"use client";

import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";

export default function OfficeError({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <ErrorNotice
      happened="This page could not be shown."
      safe="What was saved before is kept."
      todo={`Try again. If it stays, tell whoever runs Dryhold for you${error.digest ? ` and give the code ${error.digest}` : ""}.`}
      action={<Button onClick={reset}>Try again</Button>}
    />
  );
}
