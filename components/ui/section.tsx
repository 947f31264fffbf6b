import { type ReactNode, useId } from "react";
import { classNames } from "./class-names";

/** A named part of a page; the heading names it for screen readers too. */
export function Section(props: {
  title: ReactNode;
  level?: 2 | 3;
  lead?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
  className?: string;
}) {
  const id = useId();
  const Heading = props.level === 3 ? "h3" : "h2";
  return (
    <section aria-labelledby={id} className={classNames("grid grid-cols-[minmax(0,1fr)] gap-3", props.className)}>
      <div className="flex flex-wrap items-baseline justify-between gap-x-4 gap-y-2">
        <div className="grid gap-1">
          <Heading id={id} className="text-body">
            {props.title}
          </Heading>
          {props.lead && <p className="max-w-prose text-small text-ink-soft">{props.lead}</p>}
        </div>
        {props.actions && <div className="no-print flex flex-wrap gap-2">{props.actions}</div>}
      </div>
      {props.children}
    </section>
  );
}

/** Names and values of one thing, read in pairs. */
export function Facts(props: { items: readonly { term: string; value: ReactNode }[]; columns?: 1 | 2 }) {
  return (
    <dl className={classNames("grid gap-x-8", props.columns === 2 && "wide:grid-cols-2")}>
      {props.items.map((item) => (
        <div
          key={item.term}
          className="grid grid-cols-[minmax(7rem,2fr)_5fr] gap-3 border-b border-hairline py-1.5 last:border-0"
        >
          <dt className="text-ink-soft">{item.term}</dt>
          <dd className="min-w-0">{item.value}</dd>
        </div>
      ))}
    </dl>
  );
}
