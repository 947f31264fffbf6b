"use client";

import { Button, LinkButton } from "@/components/ui/button";
import { EmptyState, ErrorNotice, ForbiddenNotice } from "@/components/ui/notices";
import { TabletFrame } from "@/components/ui/tablet-frame";
import type { Standing } from "@/lib/sync/device";
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
  const again = <Button onClick={() => window.location.reload()}>Try again</Button>;
  const signIn = (
    <LinkButton kind="action" prefetch={false} href={`/sign-in?callbackUrl=${encodeURIComponent(here)}`}>
      Sign in
    </LinkButton>
  );
  switch (because) {
    case "signed-out":
      return (
        <EmptyState title="Nobody is signed in on this tablet" action={signIn}>
          <p>Work left unsent here is locked away. It opens for the person it belongs to, when they sign in.</p>
        </EmptyState>
      );
    case "no-network":
      return (
        <ErrorNotice
          happened="Nobody is signed in on this tablet, and there is no network."
          safe="Work left unsent here is locked away and kept."
          todo="Go where there is a signal and sign in; afterwards the tablet opens without one."
          action={again}
        />
      );
    case "not-found":
      return <EmptyState title="There is nothing at this address" action={signIn} />;
    case "forbidden":
      return <ForbiddenNotice who="The tablet is for technicians and supervisors of the company." />;
    case "older-program":
      return (
        <ErrorNotice
          happened="This page is older than what this tablet holds."
          safe="Everything saved here is kept."
          todo="Close the tablet's other pages, then open it again."
          action={again}
        />
      );
    case "no-disk":
      return (
        <ErrorNotice
          happened="This browser keeps nothing for the tablet, so no work could be saved here."
          todo="Leave the private window, or allow this site to store data; then open it again."
          action={again}
        />
      );
    case "server-trouble":
    case "fresh":
      return (
        <ErrorNotice
          happened="The server did not answer as it should."
          safe="Work left unsent here is kept."
          action={again}
        />
      );
  }
}
