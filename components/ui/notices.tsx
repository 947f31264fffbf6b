import type { ReactNode } from "react";
import { controlsWords } from "@/lib/words/en/controls";
import { classNames } from "./class-names";
import { type State, StateShape } from "./state-mark";

/** Nothing here yet: why, and how the first one comes to be. */
export function EmptyState(props: { title: string; children?: ReactNode; action?: ReactNode }) {
  return (
    <div className="grid justify-items-start gap-2 border-b border-hairline pt-4 pb-6">
      <p className="font-semibold">{props.title}</p>
      {props.children && <div className="max-w-prose text-ink-soft">{props.children}</div>}
      {props.action}
    </div>
  );
}

/** Something failed: what happened, what is safe, what to do. */
export function ErrorNotice(props: { happened: ReactNode; safe?: ReactNode; todo?: ReactNode; action?: ReactNode }) {
  return (
    <div role="alert" className="grid justify-items-start gap-2 border-l-3 border-refused bg-refused-wash px-4 py-3">
      <p className="flex items-baseline gap-2 font-semibold">
        <StateShape state="refused" />
        <span>{props.happened}</span>
      </p>
      {props.safe && <p className="max-w-prose">{props.safe}</p>}
      {props.todo && <p className="max-w-prose">{props.todo}</p>}
      {props.action}
    </div>
  );
}

/** The person is signed in and may not see this; who may. */
export function ForbiddenNotice(props: { what?: string; who?: string; action?: ReactNode }) {
  return (
    <div className="grid justify-items-start gap-2 border-l-3 border-edge bg-sunk px-4 py-3">
      <p className="font-semibold">{props.what ?? controlsWords.notYourRole}</p>
      <p className="max-w-prose text-ink-soft">
        {props.who ?? controlsWords.ownerGivesTheRole} {controlsWords.nothingWasChanged}
      </p>
      {props.action}
    </div>
  );
}

export type BannerKind = "saved-here" | "sent" | "sending" | "problem" | "note";

const bannerOf: Record<BannerKind, { state: State; className: string }> = {
  "saved-here": { state: "waiting", className: "bg-waiting-wash" },
  sending: { state: "working", className: "bg-working-wash" },
  sent: { state: "proven", className: "bg-proven-wash" },
  problem: { state: "refused", className: "bg-refused-wash" },
  note: { state: "needs-you", className: "bg-needs-you-wash" },
};

/** One line across the page about where the work stands: saved here, sent, or in trouble. Announced politely. */
export function Banner(props: { kind: BannerKind; children: ReactNode; action?: ReactNode }) {
  const { state, className } = bannerOf[props.kind];
  return (
    <div className={classNames("flex min-h-11 flex-wrap items-center gap-x-4 gap-y-1 px-4 py-1.5", className)}>
      <p role="status" className="flex grow items-baseline gap-2">
        <StateShape state={state} />
        <span>{props.children}</span>
      </p>
      {props.action}
    </div>
  );
}

/**
 * A caution on the work itself. "danger" is for what can hurt a person, "note" for what can spoil the work.
 * Always above what it warns of.
 */
export function Callout(props: { kind?: "danger" | "note"; title: string; children: ReactNode }) {
  const danger = props.kind !== "note";
  return (
    <div
      role="note"
      aria-label={props.title}
      className={classNames(
        "keep-together grid grid-cols-[auto_1fr] gap-x-3 gap-y-1 border-2 px-4 py-3",
        danger ? "border-refused" : "border-needs-you",
      )}
    >
      <svg
        viewBox="0 0 24 24"
        aria-hidden="true"
        className={classNames("mt-0.5 size-6", danger ? "text-refused" : "text-needs-you")}
      >
        <path d="M12 2.5 22.5 21h-21Z" fill="none" stroke="currentColor" strokeWidth="2" strokeLinejoin="round" />
        <path d="M12 9.5v5.5M12 17v1.6" stroke="currentColor" strokeWidth="2" />
      </svg>
      <p className="font-semibold">{props.title}</p>
      <div className="col-span-2 max-w-prose">{props.children}</div>
    </div>
  );
}
