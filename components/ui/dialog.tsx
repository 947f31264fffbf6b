"use client";

import { Dialog as Base } from "@base-ui/react/dialog";
import type { ReactElement, ReactNode } from "react";
import { classNames } from "./class-names";
import { CrossGlyph } from "./cross-glyph";

type Parts = {
  title: string;
  lead?: ReactNode;
  children?: ReactNode;
  /** The buttons at the foot, the action last. A button that only closes: <DialogClose>. */
  actions?: ReactNode;
  /** The button that opens it. Leave out when `open` is held by the page. */
  trigger?: ReactElement;
  open?: boolean;
  onOpenChange?: (open: boolean) => void;
};

/** A question in the middle that must be answered or left. */
export function Dialog(props: Parts & { wide?: boolean }) {
  return (
    <Frame
      {...props}
      className={classNames(
        "fixed top-1/2 left-1/2 max-h-[calc(100dvh-2rem)] w-[calc(100vw-2rem)] -translate-x-1/2 -translate-y-1/2",
        props.wide ? "max-w-3xl" : "max-w-lg",
      )}
    />
  );
}

/** A sheet from the side (office) or from below (tablet, near the thumb), over the page it belongs to. */
export function Sheet(props: Parts & { side?: "right" | "bottom" }) {
  const below = props.side === "bottom";
  return (
    <Frame
      {...props}
      className={classNames(
        "fixed",
        below ? "inset-x-0 bottom-0 max-h-[88dvh]" : "inset-y-0 right-0 w-[min(30rem,calc(100vw-2rem))] max-h-dvh",
      )}
    />
  );
}

function Frame(props: Parts & { className: string }) {
  return (
    <Base.Root
      {...(props.open !== undefined && { open: props.open })}
      {...(props.onOpenChange && { onOpenChange: props.onOpenChange })}
    >
      {props.trigger && <Base.Trigger render={props.trigger} />}
      <Base.Portal>
        <Base.Backdrop className="appear fixed inset-0 z-30 bg-[oklch(15%_0.01_75/0.45)]" />
        <Base.Popup className={classNames("floating appear z-40 grid grid-rows-[auto_1fr_auto]", props.className)}>
          <div className="flex items-start justify-between gap-4 px-5 pt-4 pb-3">
            <div className="grid gap-1">
              <Base.Title className="text-title">{props.title}</Base.Title>
              {props.lead && <Base.Description className="text-ink-soft">{props.lead}</Base.Description>}
            </div>
            <Base.Close
              aria-label="Close"
              className="-mr-2 grid size-(--control) shrink-0 place-items-center rounded-control hover:bg-sunk"
            >
              <CrossGlyph />
            </Base.Close>
          </div>
          <div className="overflow-y-auto px-5 pb-4">{props.children}</div>
          {props.actions && (
            <div className="flex flex-wrap justify-end gap-2 border-t border-hairline px-5 py-3">{props.actions}</div>
          )}
        </Base.Popup>
      </Base.Portal>
    </Base.Root>
  );
}

/** Turns a button into one that closes the dialog or sheet around it. */
export function DialogClose({ children }: { children: ReactElement }) {
  return <Base.Close render={children} />;
}
