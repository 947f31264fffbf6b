import type { Metadata } from "next";
import { TabletProgram } from "@/app/(tablet)/_tablet/tablet-program";
import { frameWords } from "@/lib/words/en/frame";

export const metadata: Metadata = { title: frameWords.tablet };

/** The tablet's page with nobody in it: what a device keeps and opens at each of the tablet's addresses without a network. */
export default function TabletShell() {
  return <TabletProgram />;
}
