import type { Metadata, Viewport } from "next";
import { headers } from "next/headers";
import type { ReactNode } from "react";
import { StyleNonce } from "@/components/ui/style-nonce";
import "./globals.css";

export const metadata: Metadata = {
  title: { default: "Dryhold", template: "%s · Dryhold" },
  description: "Sealed-system work planned, guided and proven.",
  robots: { index: false, follow: false },
  formatDetection: { telephone: false, date: false, address: false },
};

export const viewport: Viewport = {
  width: "device-width",
  initialScale: 1,
  viewportFit: "cover",
  themeColor: [
    { media: "(prefers-color-scheme: light)", color: "#f8f6f3" },
    { media: "(prefers-color-scheme: dark)", color: "#141210" },
  ],
};

/** Reading the request makes every page dynamic, which a nonce needs. */
export default async function RootLayout({ children }: { children: ReactNode }) {
  const nonce = (await headers()).get("x-nonce") ?? undefined;
  return (
    <html lang="en">
      <body>
        <StyleNonce nonce={nonce}>{children}</StyleNonce>
      </body>
    </html>
  );
}
