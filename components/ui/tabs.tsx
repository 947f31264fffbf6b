"use client";

import { Tabs as Base } from "@base-ui/react/tabs";
import type { ReactNode } from "react";

export type Tab = { id: string; label: string; count?: number; content: ReactNode };

/** Several readings of one thing, one shown at a time. For places with an address of their own use links instead. */
export function Tabs(props: {
  label: string;
  tabs: readonly Tab[];
  defaultId?: string;
  chosenId?: string;
  onChoose?: (id: string) => void;
}) {
  const { tabs, onChoose } = props;
  return (
    <Base.Root
      {...(props.chosenId !== undefined ? { value: props.chosenId } : { defaultValue: props.defaultId ?? tabs[0]?.id })}
      onValueChange={(id: string) => onChoose?.(id)}
    >
      <Base.List aria-label={props.label} className="flex gap-1 overflow-x-auto border-b border-hairline">
        {tabs.map((tab) => (
          <Base.Tab
            key={tab.id}
            value={tab.id}
            className="min-h-(--control) shrink-0 px-3 text-ink-soft -outline-offset-2 hover:text-ink data-active:font-semibold data-active:text-ink data-active:shadow-[inset_0_-3px_0_var(--action)]"
          >
            {tab.label}
            {tab.count !== undefined && (
              <span className="ml-1.5 text-small tabular-nums text-ink-soft">{tab.count}</span>
            )}
          </Base.Tab>
        ))}
      </Base.List>
      {tabs.map((tab) => (
        <Base.Panel key={tab.id} value={tab.id} className="pt-4">
          {tab.content}
        </Base.Panel>
      ))}
    </Base.Root>
  );
}
