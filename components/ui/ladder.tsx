import type { ReactNode } from "react";
import { classNames } from "./class-names";
import { Link } from "./link";
import { type State, StateShape, stateWord } from "./state-mark";

export type Rung = { id: string; name: string; state: State; word?: string; note?: ReactNode; href?: string };

/** A procedure as a thin ladder: one rung a step, its state as shape and word, the open one marked. */
export function Ladder(props: { label: string; rungs: readonly Rung[]; currentId?: string }) {
  return (
    <nav aria-label={props.label}>
      <ol className="grid content-start">
        {props.rungs.map((rung, index) => {
          const current = rung.id === props.currentId;
          return (
            <li key={rung.id} className="relative" aria-current={current && !rung.href ? "step" : undefined}>
              {index < props.rungs.length - 1 && (
                <span
                  aria-hidden="true"
                  className="absolute top-[calc(var(--control)/2+0.7em)] bottom-[calc(0.7em-var(--control)/2)] left-[calc(0.75rem+0.5em-0.5px)] w-px bg-edge"
                />
              )}
              <RungBody rung={rung} current={current} />
            </li>
          );
        })}
      </ol>
    </nav>
  );
}

function RungBody({ rung, current }: { rung: Rung; current: boolean }) {
  const className = classNames(
    "relative flex min-h-(--control) items-center gap-2.5 px-3 py-1 text-body text-ink no-underline",
    current && "bg-sunk font-semibold shadow-[inset_3px_0_0_var(--action)]",
    rung.href && "hover:bg-sunk hover:text-ink",
  );
  const words = (
    <>
      <StateShape state={rung.state} className="translate-y-0" />
      <span className="rung-words grid leading-tight">
        <span>{rung.name}</span>
        <span className="text-small font-normal text-ink-soft">
          {rung.word ?? stateWord[rung.state]}
          {rung.note && <> · {rung.note}</>}
        </span>
      </span>
    </>
  );
  if (!rung.href) return <div className={className}>{words}</div>;
  return (
    <Link href={rung.href} className={className} aria-current={current ? "step" : undefined}>
      {words}
    </Link>
  );
}
