"use client";

import dynamic from "next/dynamic";
import { usePathname } from "next/navigation";
import type { ReactNode } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { Banner } from "@/components/ui/notices";
import { TabletFrame } from "@/components/ui/tablet-frame";
import { frameWords } from "@/lib/words/en/frame";
import { useDevice } from "./device/device-context";
import { useStorageFull, useSync } from "./device/use-sync";
import { SyncStatus } from "./sync-status";

/** Signing in leads back to where the work goes on. */
function SignInLink() {
  const here = usePathname();
  return <LinkButton href={`/sign-in?callbackUrl=${encodeURIComponent(here)}`}>{frameWords.signIn}</LinkButton>;
}

const ProblemSheet = dynamic(() => import("./problem-sheet").then((part) => part.ProblemSheet));

/** The frame of every screen: where the work is stands in it, and what keeps it from being sent. */
export function ScreenFrame(props: {
  title: ReactNode;
  back?: { href: string; label: string };
  ladder?: ReactNode;
  obstacle?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}) {
  return <TabletFrame {...props} sync={<SyncStatus />} banner={<SyncBanner />} />;
}

function SyncBanner() {
  const { sender } = useDevice();
  const sync = useSync();
  const full = useStorageFull();
  if (full) return <Banner kind="problem">{frameWords.noRoom}</Banner>;
  if (sync?.sender === "signed-out")
    return (
      <Banner kind="note" action={<SignInLink />}>
        {frameWords.sessionEnded}
      </Banner>
    );
  if (sync && sync.problems > 0)
    return (
      <Banner kind="problem" action={<ProblemSheet trigger={<Button>{frameWords.seeWhich}</Button>} />}>
        {frameWords.entriesNotTaken(sync.problems)}
      </Banner>
    );
  if (sync?.sender === "server-trouble" && sync.waiting > 0)
    return (
      <Banner kind="saved-here" action={<Button onClick={() => void sender.nudge()}>{frameWords.sendNow}</Button>}>
        {frameWords.serverTrouble}
      </Banner>
    );
  return null;
}
