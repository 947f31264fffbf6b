import { controlsWords } from "@/lib/words/en/controls";
import { classNames } from "./class-names";

export type State = "proven" | "working" | "waiting" | "needs-you" | "refused" | "cannot-say";

export const stateWord: Readonly<Record<State, string>> = controlsWords.state;

const inkOf: Record<State, string> = {
  proven: "text-proven",
  working: "text-working",
  waiting: "text-waiting",
  "needs-you": "text-needs-you",
  refused: "text-refused",
  "cannot-say": "text-cannot-say",
};

/**
 * A state as shape, colour and word together. The word may be replaced by a more exact one ("Holding"), or kept
 * for screen readers only where the shape already stands beside its words.
 */
export function StateMark(props: { state: State; word?: string; bare?: boolean; className?: string }) {
  const { state, word = stateWord[state], bare = false } = props;
  return (
    <span className={classNames("inline-flex items-baseline gap-1.5 font-medium", inkOf[state], props.className)}>
      <StateShape state={state} />
      <span className={bare ? "sr-only" : undefined}>{word}</span>
    </span>
  );
}

/** The shape alone, for places where a word stands beside it already. */
export function StateShape({ state, className }: { state: State; className?: string }) {
  return (
    <svg
      viewBox="0 0 16 16"
      className={classNames("inline-block size-[1em] shrink-0 translate-y-[0.125em]", inkOf[state], className)}
      fill="none"
      stroke="currentColor"
      strokeWidth="1.75"
      aria-hidden="true"
      data-state={state}
    >
      {shapeOf(state)}
    </svg>
  );
}

function shapeOf(state: State) {
  switch (state) {
    case "proven":
      return (
        <>
          <circle cx="8" cy="8" r="7" fill="currentColor" stroke="none" />
          <path d="M4.6 8.3 7 10.7l4.4-5" stroke="var(--ground)" strokeWidth="1.9" />
        </>
      );
    case "working":
      return (
        <>
          <circle cx="8" cy="8" r="6" strokeWidth="1" />
          <path className="turning" d="M8 2a6 6 0 0 1 6 6" strokeWidth="3" />
        </>
      );
    case "waiting":
      return <circle cx="8" cy="8" r="6" />;
    case "needs-you":
      return <path d="M8 1 15 8 8 15 1 8Z" fill="currentColor" stroke="none" />;
    case "refused":
      return (
        <>
          <path d="M5.1 1h5.8L15 5.1v5.8L10.9 15H5.1L1 10.9V5.1Z" fill="currentColor" stroke="none" />
          <path d="M4.5 8h7" stroke="var(--ground)" strokeWidth="2" />
        </>
      );
    case "cannot-say":
      return <circle cx="8" cy="8" r="6" strokeDasharray="2.4 2.31" />;
  }
}
