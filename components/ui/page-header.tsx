import type { ReactNode } from "react";
import { Link } from "./link";

/** The thing and its number, what matters about it in one line, and what can be done with it. */
export function PageHeader(props: {
  title: ReactNode;
  lead?: ReactNode;
  back?: { href: string; label: string };
  actions?: ReactNode;
}) {
  return (
    <header className="grid gap-1 border-b border-hairline pb-4">
      {props.back && (
        <Link href={props.back.href} className="inline-flex min-h-6 items-center gap-1 justify-self-start text-small">
          <span aria-hidden="true">←</span> {props.back.label}
        </Link>
      )}
      <div className="flex flex-wrap items-start justify-between gap-x-6 gap-y-3">
        <div className="grid gap-1">
          <h1 className="text-title">{props.title}</h1>
          {props.lead && <div className="max-w-prose text-ink-soft">{props.lead}</div>}
        </div>
        {props.actions && <div className="no-print flex flex-wrap gap-2">{props.actions}</div>}
      </div>
    </header>
  );
}
