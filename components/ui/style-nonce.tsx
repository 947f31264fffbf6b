"use client";

import { CSPProvider } from "@base-ui/react/csp-provider";
import type { ReactNode } from "react";

/** Hands the response's nonce to the few style elements that pop-ups add. */
export function StyleNonce({ nonce, children }: { nonce?: string | undefined; children: ReactNode }) {
  return <CSPProvider {...(nonce && { nonce })}>{children}</CSPProvider>;
}
