"use client";

import { Menu as Base } from "@base-ui/react/menu";
import type { ReactElement } from "react";
import { classNames } from "./class-names";
import { Link } from "./link";

export type MenuItem = { id: string; label: string; detail?: string; danger?: boolean; disabled?: boolean } & (
  | { href: string }
  | { onSelect: () => void }
);

/** Further verbs behind one button. Items with an address are links. */
export function Menu(props: { trigger: ReactElement; items: readonly MenuItem[]; label?: string }) {
  return (
    <Base.Root>
      <Base.Trigger render={props.trigger} />
      <Base.Portal>
        <Base.Positioner sideOffset={4} align="end" className="z-40 outline-none">
          <Base.Popup className="floating appear min-w-48 py-1 outline-none" aria-label={props.label}>
            {props.items.map((item) => {
              const words = (
                <span className="grid">
                  <span>{item.label}</span>
                  {item.detail && <span className="text-small text-ink-soft">{item.detail}</span>}
                </span>
              );
              const className = classNames("list-option no-underline", item.danger ? "text-refused" : "text-ink");
              if ("href" in item)
                return (
                  <Base.LinkItem key={item.id} className={className} render={<Link href={item.href} />}>
                    {words}
                  </Base.LinkItem>
                );
              return (
                <Base.Item
                  key={item.id}
                  className={className}
                  disabled={item.disabled ?? false}
                  onClick={item.onSelect}
                >
                  {words}
                </Base.Item>
              );
            })}
          </Base.Popup>
        </Base.Positioner>
      </Base.Portal>
    </Base.Root>
  );
}
