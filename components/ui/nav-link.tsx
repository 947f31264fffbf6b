"use client";

import { usePathname } from "next/navigation";
import type { ReactNode } from "react";
import { KeyHint } from "./key-hint";
import { Link } from "./link";

/** One place of the rail; marked while the page or one under it is open. */
export function NavLink(props: {
  href: string;
  children: ReactNode;
  count?: number;
  shortcut?: string;
  exact?: boolean;
}) {
  const path = usePathname() ?? "";
  const here = path === props.href || (!props.exact && path.startsWith(`${props.href}/`));
  return (
    <Link
      href={props.href}
      aria-current={here ? "page" : undefined}
      {...(props.shortcut && { "aria-keyshortcuts": props.shortcut })}
      className="flex min-h-9 shrink-0 items-center gap-2 px-3 text-ink no-underline hover:bg-sunk hover:text-ink aria-[current=page]:font-semibold aria-[current=page]:shadow-[inset_0_-3px_0_var(--action)] wide:px-4 wide:aria-[current=page]:bg-sunk wide:aria-[current=page]:shadow-[inset_3px_0_0_var(--action)]"
    >
      <span className="grow">{props.children}</span>
      {props.count !== undefined && props.count > 0 && (
        <span className="text-small tabular-nums text-needs-you">
          <span aria-hidden="true">◆ </span>
          {props.count}
          <span className="sr-only"> need you</span>
        </span>
      )}
      {props.shortcut && <KeyHint keys={[props.shortcut]} />}
    </Link>
  );
}
