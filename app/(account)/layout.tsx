import type { ReactNode } from "react";

/** The narrow page around signing in and one's own account. */
export default function AccountLayout({ children }: { children: ReactNode }) {
  return (
    <main id="content" className="mx-auto grid w-full max-w-md content-start gap-6 px-4 py-12">
      <p className="font-semibold">Dryhold</p>
      {children}
    </main>
  );
}
