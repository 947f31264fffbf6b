"use client";

import "@/components/ui/tablet-frame.css";
import { stoppedWords } from "@/lib/words/en/stopped";

/** Made of nothing but elements: it stands in the first page's scripts and must not make them heavier. */
export default function TabletError({ reset }: { error: Error & { digest?: string }; reset: () => void }) {
  return (
    <main data-frame="tablet" id="work" className="mx-auto grid max-w-3xl gap-4 px-5 py-10">
      <h1 className="text-title">{stoppedWords.thisScreenStopped}</h1>
      <div role="alert" className="grid justify-items-start gap-2 border-l-3 border-refused bg-refused-wash px-4 py-3">
        <p className="font-semibold">{stoppedWords.somethingWentWrongWhile}</p>
        <p>{stoppedWords.whatTheTabletSaid}</p>
        <p>{stoppedWords.openItAgainIf}</p>
        <button
          type="button"
          onClick={reset}
          className="min-h-(--control) rounded-control bg-action px-5 font-semibold text-on-action"
        >
          {stoppedWords.openItAgain}
        </button>
      </div>
    </main>
  );
}
