import "./tablet-frame.css";
import type { ReactNode } from "react";
import { controlsWords } from "@/lib/words/en/controls";
import { Link } from "./link";
import { SkipLink } from "./skip-link";
import { type State, StateMark } from "./state-mark";

/**
 * The tablet around one step: a line at the top with the way back and where the data are, the one thing of the
 * step, and the buttons at the foot under the thumb. The ladder stands at the side where there is room.
 */
export function TabletFrame(props: {
  back?: { href: string; label: string };
  title: ReactNode;
  sync: ReactNode;
  ladder?: ReactNode;
  banner?: ReactNode;
  /** One large button, and "cannot do this" beside it. */
  actions?: ReactNode;
  /** What keeps the large button from doing its work, above it. */
  obstacle?: ReactNode;
  children: ReactNode;
}) {
  return (
    <div data-frame="tablet" className="flex min-h-dvh flex-col text-body">
      <SkipLink />
      <header className="no-print sticky top-0 z-20 border-b border-hairline bg-ground">
        <div className="flex min-h-14 items-center gap-4 px-4">
          {props.back && (
            <Link
              href={props.back.href}
              aria-label={props.back.label}
              className="-ml-4 grid size-14 place-items-center no-underline"
            >
              <span aria-hidden="true" className="text-title">
                ←
              </span>
            </Link>
          )}
          <div className="min-w-0 grow truncate font-semibold">{props.title}</div>
          <div className="shrink-0 text-small">{props.sync}</div>
        </div>
        {props.banner}
      </header>
      <div className="flex grow">
        {props.ladder && (
          <div className="thin-ladder no-print shrink-0 border-r border-hairline py-1.5 desk:w-72">{props.ladder}</div>
        )}
        <main
          id="work"
          tabIndex={-1}
          className="mx-auto grid w-full min-w-0 max-w-3xl grid-cols-[minmax(0,1fr)] content-start gap-5 px-5 py-5 outline-none desk:max-w-6xl"
        >
          {props.children}
        </main>
      </div>
      {props.actions && (
        <footer className="no-print sticky bottom-0 z-20 grid gap-2 border-t border-hairline bg-ground px-5 py-3 pb-[max(0.75rem,env(safe-area-inset-bottom))]">
          {props.obstacle}
          <div className="flex gap-3 *:first:grow">{props.actions}</div>
        </footer>
      )}
    </div>
  );
}

export type SyncState = "saved-here" | "sending" | "sent" | "not-sent";

const syncOf: Record<SyncState, State> = {
  "saved-here": "waiting",
  sending: "working",
  sent: "proven",
  "not-sent": "refused",
};

/** Where the work is, in one line: saved here, how much waits, sent. */
export function SyncLine(props: { state: SyncState; waiting?: number; detail?: string }) {
  const { state, waiting = 0 } = props;
  return (
    <span role="status">
      <StateMark state={syncOf[state]} word={syncWords(state, waiting)} />
      {props.detail && <span className="text-ink-soft"> · {props.detail}</span>}
    </span>
  );
}

function syncWords(state: SyncState, waiting: number): string {
  switch (state) {
    case "saved-here":
      return controlsWords.savedHere(waiting);
    case "sending":
      return controlsWords.sending(waiting);
    case "sent":
      return controlsWords.sent;
    case "not-sent":
      return controlsWords.notSent(waiting);
  }
}
