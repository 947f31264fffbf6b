"use client";

import type { ReactNode } from "react";
import { Button } from "./button";

/** Opens the browser's print dialogue for the page it stands on; not printed itself. */
export function PrintButton({ children }: { children: ReactNode }) {
  return (
    <Button className="no-print" onClick={() => window.print()}>
      {children}
    </Button>
  );
}
