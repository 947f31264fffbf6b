"use client";

import { SyncLine } from "@/components/ui/tablet-frame";
import { useSync } from "./device/use-sync";

/** Where the work is, always in sight. */
export function SyncStatus() {
  const sync = useSync();
  if (!sync) return <SyncLine state="saved-here" detail="reading this device" />;
  if (sync.problems > 0) return <SyncLine state="not-sent" waiting={sync.problems} />;
  if (sync.waiting === 0) return <SyncLine state="sent" />;
  switch (sync.sender) {
    case "sending":
      return <SyncLine state="sending" waiting={sync.waiting} />;
    case "signed-out":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail="sign in to send" />;
    case "not-found":
      return <SyncLine state="not-sent" waiting={sync.waiting} detail="ask the office" />;
    case "server-trouble":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail="server not answering" />;
    case "no-network":
      return <SyncLine state="saved-here" waiting={sync.waiting} detail="no network" />;
    case "idle":
    case "all-sent":
    case "another-tab-sends":
      return <SyncLine state="saved-here" waiting={sync.waiting} />;
  }
}
