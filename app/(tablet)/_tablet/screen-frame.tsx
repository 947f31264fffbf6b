"use client";

import dynamic from "next/dynamic";
import type { ReactNode } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { Banner } from "@/components/ui/notices";
import { TabletFrame } from "@/components/ui/tablet-frame";
import { useDevice, useSync } from "./device/device-context";
import { SyncStatus } from "./sync-status";

const ProblemSheet = dynamic(() => import("./problem-sheet").then((part) => part.ProblemSheet));

/** The frame of every screen: where the work is stands in it, and what keeps it from being sent. */
export function ScreenFrame(props: {
  title: ReactNode;
  back?: { href: string; label: string };
  ladder?: ReactNode;
  actions?: ReactNode;
  children: ReactNode;
}) {
  return <TabletFrame {...props} sync={<SyncStatus />} banner={<SyncBanner />} />;
}

function SyncBanner() {
  const { sender } = useDevice();
  const sync = useSync();
  if (sync?.sender === "signed-out")
    return (
      <Banner kind="note" action={<LinkButton href="/sign-in">Sign in</LinkButton>}>
        The session has ended. Work goes on and is saved here; sign in to send it.
      </Banner>
    );
  if (sync && sync.problems > 0)
    return (
      <Banner kind="problem" action={<ProblemSheet trigger={<Button>See which</Button>} />}>
        The server did not take {sync.problems === 1 ? "one entry" : `${sync.problems} entries`}. Kept here.
      </Banner>
    );
  if (sync?.sender === "server-trouble" && sync.waiting > 0)
    return (
      <Banner kind="saved-here" action={<Button onClick={() => void sender.nudge()}>Send now</Button>}>
        The server did not answer as it should. Everything is saved here and will be sent.
      </Banner>
    );
  return null;
}
