"use client";

import { Button } from "@/components/ui/button";
import { ErrorNotice } from "@/components/ui/notices";

export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main id="work" className="mx-auto grid max-w-2xl gap-4 px-5 py-10">
      <h1 className="text-title">This page could not be shown</h1>
      <ErrorNotice
        happened="Something on our side went wrong."
        safe="What you saved before is kept."
        todo={`Try again. If it stays, tell whoever runs Dryhold for you${error.digest ? ` and give the code ${error.digest}` : ""}.`}
        action={<Button onClick={reset}>Try again</Button>}
      />
    </main>
  );
}
