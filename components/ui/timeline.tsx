import type { ReactNode } from "react";
import { type State, StateMark } from "./state-mark";

export type Happening = {
  id: string;
  /** Machine time, ISO 8601. */
  at: string;
  /** The same time as people read it, in the site's zone. */
  atWords: string;
  title: ReactNode;
  detail?: ReactNode;
  state?: State;
  stateWord?: string;
};

/** What happened, in order, each with its time. */
export function Timeline(props: { label: string; happenings: readonly Happening[] }) {
  return (
    <ol aria-label={props.label} className="grid grid-cols-[minmax(5.5rem,auto)_1fr] content-start gap-x-4">
      {props.happenings.map((event) => (
        <li key={event.id} className="col-span-full grid grid-cols-subgrid border-b border-hairline py-2 last:border-0">
          <time dateTime={event.at} className="text-small leading-[1.7] text-ink-soft">
            {event.atWords}
          </time>
          <div className="min-w-0">
            <div className="flex flex-wrap items-baseline gap-x-3">
              <span>{event.title}</span>
              {event.state && <StateMark state={event.state} {...(event.stateWord && { word: event.stateWord })} />}
            </div>
            {event.detail && <div className="text-small text-ink-soft">{event.detail}</div>}
          </div>
        </li>
      ))}
    </ol>
  );
}
