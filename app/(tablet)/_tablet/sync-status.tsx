"use client";

import { SyncLine } from "@/components/ui/tablet-frame";
import { frameWords } from "@/lib/words/en/frame";
import { useSync } from "./device/use-sync";

/** Where the work is, always in sight. */
export function SyncStatus() {
  const sync = useSync();
  if (!sync) return <SyncLine state="saved-here" detail={frameWords.readingThisDevice} />;
  if (sync.problems > 0) return <SyncLine state="not-sent" waiting={sync.problems} />;
  if (sync.waiting === 0) return <SyncLine state="sent" />;
  switch (sync.sender) {
    case "sending":
      return <SyncLine state="sending" waiting={sync.waiting} />;
    case "signed-out":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail={frameWords.signInToSend} />;
    case "not-found":
      return <SyncLine state="not-sent" waiting={sync.waiting} detail={frameWords.askTheOffice} />;
    case "server-trouble":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail={frameWords.serverNotAnswering} />;
    case "no-network":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail={frameWords.noNetwork} />;
    case "idle":
    case "all-sent":
    case "another-tab-sends":
      return <SyncLine state="saved-here" waiting={sync.waiting} />;
  }
}
