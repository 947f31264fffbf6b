"use client";

import { buttonClass } from "@/components/ui/button-look";
import { ErrorNotice } from "@/components/ui/notices";

/** It stands in the scripts of every first page, so it takes no button that knows of links. */
export default function ErrorPage({ error, reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main id="work" className="mx-auto grid max-w-2xl gap-4 px-5 py-10">
      <h1 className="text-title">This page could not be shown</h1>
      <ErrorNotice
        happened="Something on our side went wrong."
        safe="What you saved before is kept."
        todo={`Try again. If it stays, tell whoever runs Dryhold for you${error.digest ? ` and give the code ${error.digest}` : ""}.`}
        action={
          <button type="button" className={buttonClass({})} onClick={reset}>
            Try again
          </button>
        }
      />
    </main>
  );
}
