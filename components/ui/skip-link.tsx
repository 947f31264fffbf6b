import { controlsWords } from "@/lib/words/en/controls";
/** The first stop of the keyboard: past the frame, to the work. */
export function SkipLink({ to = "work" }: { to?: string }) {
  return (
    <a
      href={`#${to}`}
      className="floating sr-only z-50 px-4 py-2 focus:not-sr-only focus:fixed focus:top-2 focus:left-2"
    >
      {controlsWords.skipToTheWork}
    </a>
  );
}
