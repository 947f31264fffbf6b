"use client";

import { Toast } from "@base-ui/react/toast";
import type { ReactNode } from "react";
import { CrossGlyph } from "./cross-glyph";

/** Stands once around the pages; what was done is said at the foot of the screen, with the way back. */
export function UndoProvider({ children }: { children: ReactNode }) {
  return (
    <Toast.Provider timeout={10_000} limit={3}>
      {children}
      <Toast.Portal>
        <Toast.Viewport className="no-print fixed right-4 bottom-4 z-50 grid w-[min(28rem,calc(100vw-2rem))] gap-2">
          <ToastList />
        </Toast.Viewport>
      </Toast.Portal>
    </Toast.Provider>
  );
}

/** `said("Visit moved to Tuesday", undo)`: says what was done and, with `undo`, offers to take it back. */
export function useUndo() {
  const manager = Toast.useToastManager();
  return function said(done: string, undo?: () => void) {
    const id = manager.add({
      title: done,
      ...(undo && {
        actionProps: {
          children: "Undo",
          onClick: () => {
            undo();
            manager.close(id);
          },
        },
      }),
    });
    return id;
  };
}

function ToastList() {
  const { toasts } = Toast.useToastManager();
  return toasts.map((toast) => (
    <Toast.Root key={toast.id} toast={toast} className="floating appear">
      <Toast.Content className="flex min-h-12 items-center gap-3 px-4 py-1.5">
        <Toast.Title className="grow" />
        <Toast.Action className="min-h-9 rounded-control px-3 font-semibold text-action hover:bg-sunk" />
        <Toast.Close aria-label="Dismiss" className="grid size-9 place-items-center rounded-control hover:bg-sunk">
          <CrossGlyph />
        </Toast.Close>
      </Toast.Content>
    </Toast.Root>
  ));
}
