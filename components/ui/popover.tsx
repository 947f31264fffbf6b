"use client";

import { Popover as BasePopover } from "@base-ui/react/popover";
import { Tooltip as BaseTooltip } from "@base-ui/react/tooltip";
import type { ReactElement, ReactNode } from "react";

/** A small sheet at the thing it explains, opened on purpose. */
export function Popover(props: { trigger: ReactElement; title: string; children: ReactNode }) {
  return (
    <BasePopover.Root>
      <BasePopover.Trigger render={props.trigger} />
      <BasePopover.Portal>
        <BasePopover.Positioner sideOffset={6} className="z-40">
          <BasePopover.Popup className="floating appear grid max-w-sm gap-2 p-4">
            <BasePopover.Title className="font-semibold">{props.title}</BasePopover.Title>
            <div>{props.children}</div>
          </BasePopover.Popup>
        </BasePopover.Positioner>
      </BasePopover.Portal>
    </BasePopover.Root>
  );
}

/** A few words more on hover or focus. Never the only place where something is said: tablets do not hover. */
export function Tooltip(props: { words: string; children: ReactElement }) {
  return (
    <BaseTooltip.Root>
      <BaseTooltip.Trigger render={props.children} />
      <BaseTooltip.Portal>
        <BaseTooltip.Positioner sideOffset={6} className="z-40">
          <BaseTooltip.Popup className="floating appear max-w-xs px-2.5 py-1 text-small">
            {props.words}
          </BaseTooltip.Popup>
        </BaseTooltip.Positioner>
      </BaseTooltip.Portal>
    </BaseTooltip.Root>
  );
}
