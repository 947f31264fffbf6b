"use client";

import { Button, LinkButton } from "@/components/ui/button";
import { EmptyState, ErrorNotice, ForbiddenNotice } from "@/components/ui/notices";
import { TabletFrame } from "@/components/ui/tablet-frame";
import type { Standing } from "@/lib/sync/device";
import { frameWords } from "@/lib/words/en/frame";
import { nothingHereWords } from "@/lib/words/en/nothing-here";
import { follow } from "./follow-link";

type Because = Extract<Standing, { at: "nobody" }>["because"];

/** The tablet with nobody at it: it shows nothing of anyone's, says why, and what to do. */
export function NobodyHere({ because, here }: { because: Because; here: string }) {
  return (
    <TabletFrame title="Dryhold" sync={null}>
      <div onClickCapture={(event) => follow(event, null)}>
        <Why because={because} here={here} />
      </div>
    </TabletFrame>
  );
}

function Why({ because, here }: { because: Because; here: string }) {
  const again = <Button onClick={() => window.location.reload()}>{nothingHereWords.tryAgain}</Button>;
  const signIn = (
    <LinkButton kind="action" href={`/sign-in?callbackUrl=${encodeURIComponent(here)}`}>
      {frameWords.signIn}
    </LinkButton>
  );
  switch (because) {
    case "signed-out":
      return (
        <EmptyState title={nothingHereWords.nobodySignedIn} action={signIn}>
          <p>{nothingHereWords.lockedAwayForItsPerson}</p>
        </EmptyState>
      );
    case "no-network":
      return (
        <ErrorNotice
          happened={nothingHereWords.nobodySignedInNoNetwork}
          safe={nothingHereWords.lockedAwayAndKept}
          todo={nothingHereWords.goAndSignIn}
          action={again}
        />
      );
    case "not-found":
      return <EmptyState title={frameWords.nothingAtThisAddress} action={signIn} />;
    case "forbidden":
      return <ForbiddenNotice who={nothingHereWords.whoTheTabletIsFor} />;
    case "older-program":
      return (
        <ErrorNotice
          happened={nothingHereWords.olderPage}
          safe={nothingHereWords.savedIsKept}
          todo={nothingHereWords.closeOtherPages}
          action={again}
        />
      );
    case "no-disk":
      return (
        <ErrorNotice
          happened={nothingHereWords.browserKeepsNothing}
          todo={nothingHereWords.allowStorage}
          action={again}
        />
      );
    case "server-trouble":
    case "fresh":
      return (
        <ErrorNotice happened={nothingHereWords.serverTrouble} safe={nothingHereWords.unsentIsKept} action={again} />
      );
  }
}
