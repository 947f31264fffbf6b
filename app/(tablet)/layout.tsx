import type { Metadata } from "next";
import type { ReactNode } from "react";

export const metadata: Metadata = {
  manifest: "/tablet.webmanifest",
  icons: { apple: "/icons/tablet-180.png" },
  appleWebApp: { capable: true, title: "Dryhold", statusBarStyle: "default" },
};

export default function TabletLayout({ children }: { children: ReactNode }) {
  return children;
}
