import type { ReactNode } from "react";

/** A page meant for paper: shown as a sheet on screen, bare when printed. */
export function PrintSheet({ children }: { children: ReactNode }) {
  return (
    <article className="print-sheet mx-auto grid max-w-[52rem] gap-6 border border-hairline bg-raised p-8">
      {children}
    </article>
  );
}
