"use client";

import {
  cloneElement,
  createContext,
  type ReactElement,
  type ReactNode,
  useContext,
  useId,
  useLayoutEffect,
  useRef,
  useState,
} from "react";
import { createPortal } from "react-dom";
import { controlsWords } from "@/lib/words/en/controls";
import { classNames } from "./class-names";
import { CrossGlyph } from "./cross-glyph";

type Opens = { "aria-haspopup"?: "dialog"; onClick?: () => void };

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
  const place = "top-1/2 left-1/2 max-h-[calc(100dvh-2rem)] w-[calc(100vw-2rem)] -translate-x-1/2 -translate-y-1/2";
  return <Frame {...props} className={classNames(place, props.wide ? "max-w-3xl" : "max-w-lg")} />;
}

/** A sheet from the side (office) or from below (tablet, near the thumb), over the page it belongs to. */
export function Sheet(props: Parts & { side?: "right" | "bottom" }) {
  const place =
    props.side === "bottom"
      ? "inset-x-0 top-auto bottom-0 max-h-[88dvh] w-full max-w-none"
      : "inset-y-0 right-0 left-auto h-dvh max-h-dvh w-[min(30rem,calc(100vw-2rem))]";
  return (
    <Frame {...props} className={place} inner={props.side === "bottom" ? "mx-auto w-full max-w-2xl" : undefined} />
  );
}

/** The buttons of a form in a sheet: they stay under the thumb however long the form is. */
export function SheetButtons({ children }: { children: ReactNode }) {
  return (
    <div className="sticky -bottom-4 z-10 -mb-4 border-t border-hairline bg-raised py-3">
      <div className="flex gap-3 *:first:grow">{children}</div>
    </div>
  );
}

const CloseContext = createContext<() => void>(() => {});

function Frame({ trigger, ...props }: Parts & { className: string; inner?: string | undefined }) {
  const [openHere, setOpenHere] = useState(false);
  const open = props.open ?? openHere;
  function change(next: boolean) {
    setOpenHere(next);
    props.onOpenChange?.(next);
  }
  return (
    <>
      {trigger &&
        cloneElement(trigger as ReactElement<Opens>, { "aria-haspopup": "dialog", onClick: () => change(true) })}
      {open && createPortal(<OpenFrame {...props} onClose={() => change(false)} />, document.body)}
    </>
  );
}

/** Keeps the page under a dialog from scrolling. Asked of the page by a rule (`:has`), each change of it would be searched for one. */
function cover() {
  document.documentElement.toggleAttribute("data-covered", document.querySelector("dialog[open]") !== null);
}

/** The browser's own modal dialog: it keeps the focus inside, closes by Escape and gives the focus back. */
function OpenFrame(props: Parts & { className: string; inner?: string | undefined; onClose: () => void }) {
  const id = useId();
  const frame = useRef<HTMLDialogElement>(null);
  useLayoutEffect(() => {
    const dialog = frame.current;
    dialog?.showModal();
    cover();
    return () => {
      dialog?.close(); // while it still stands in the page: else the focus is lost
      cover();
    };
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the keyboard closes it by Escape
    <dialog
      ref={frame}
      aria-labelledby={`${id}-title`}
      aria-describedby={props.lead ? `${id}-lead` : undefined}
      onClose={props.onClose}
      onClick={(event) => event.target === event.currentTarget && props.onClose()}
      className={classNames("floating appear fixed grid grid-rows-[auto_1fr_auto] backdrop:bg-shade", props.className)}
    >
      <div className="px-5 pt-4 pb-3">
        <div className={classNames("flex items-start justify-between gap-4", props.inner)}>
          <div className="grid gap-1">
            <h2 id={`${id}-title`} className="text-title">
              {props.title}
            </h2>
            {props.lead && (
              <p id={`${id}-lead`} className="text-ink-soft">
                {props.lead}
              </p>
            )}
          </div>
          <button
            type="button"
            aria-label={controlsWords.close}
            className="-mr-2 grid size-(--control) shrink-0 place-items-center rounded-control hover:bg-sunk"
            onClick={props.onClose}
          >
            <CrossGlyph />
          </button>
        </div>
      </div>
      <CloseContext value={props.onClose}>
        <div className="overflow-y-auto px-5 pb-4">
          <div className={props.inner}>{props.children}</div>
        </div>
        {props.actions && (
          <div className="flex flex-wrap justify-end gap-2 border-t border-hairline px-5 py-3">{props.actions}</div>
        )}
      </CloseContext>
    </dialog>
  );
}

/** Turns a button into one that closes the dialog or sheet around it. */
export function DialogClose({ children }: { children: ReactElement<{ onClick?: () => void }> }) {
  return cloneElement(children, { onClick: useContext(CloseContext) });
}
