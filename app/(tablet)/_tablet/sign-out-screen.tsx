"use client";

import { useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { Callout, ErrorNotice } from "@/components/ui/notices";
import { canLock, signOutHere } from "@/lib/sync/device";
import { useDevice } from "./device/device-context";
import { useLive } from "./device/use-live";
import { useSync } from "./device/use-sync";
import { addressOf } from "./place";
import { ScreenFrame } from "./screen-frame";

/** Leaving the tablet: what is not sent is counted, sent if it can be, else locked away for this person alone. */
export function SignOutScreen() {
  const { person, desk, store, ask, sender } = useDevice();
  const sync = useSync();
  const drafts = useLive("drafts", ["drafts"], async () => (await store.drafts.list()).filter(isOwn).length);
  const [pending, setPending] = useState(false);
  const home = { href: addressOf(desk.slug, { screen: "today" }), label: "Back to today" };
  const waiting = sync ? sync.waiting + sync.problems : 0;
  const refused = waiting > 0 && !canLock();

  function isOwn(row: { company: string; person: string }) {
    return row.company === desk.company && row.person === desk.person;
  }
  async function leave() {
    setPending(true);
    await signOutHere(store, ask);
    window.location.assign(addressOf(desk.slug, { screen: "today" }));
  }

  return (
    <ScreenFrame
      title="Sign out"
      back={home}
      actions={
        <>
          <Button
            kind="action"
            pending={pending}
            pendingWord="Signing out"
            disabled={refused}
            onClick={() => void leave()}
          >
            {waiting > 0 ? "Lock it away and sign out" : "Sign out"}
          </Button>
          <LinkButton prefetch={false} href={home.href}>
            Stay signed in
          </LinkButton>
        </>
      }
    >
      <h1 className="text-title">Sign out {person.name}</h1>
      {waiting > 0 ? (
        <Callout kind="note" title={waiting === 1 ? "One thing is not sent yet" : `${waiting} things are not sent yet`}>
          <p>
            {refused
              ? "On an address without HTTPS this browser cannot lock it away. Send it first, or stay signed in."
              : "The office does not have it. It stays on this tablet, locked, and is sent when you sign in here again. Nobody else can open it meanwhile, not even the office: better send it now."}
          </p>
          <Button className="mt-2" pending={sync?.sender === "sending"} onClick={() => void sender.nudge()}>
            Send now
          </Button>
        </Callout>
      ) : (
        <p>Everything recorded on this tablet has been sent.</p>
      )}
      {drafts !== undefined && drafts > 0 && (
        <p>
          {drafts === 1 ? "One step is" : `${drafts} steps are`} half filled in.{" "}
          {canLock() ? "What you typed is locked away with the rest." : "What you typed stays on this tablet."}
        </p>
      )}
      <p className="text-ink-soft">
        Today, the jobs and their logs are taken off this tablet; they are fetched again for whoever signs in.
      </p>
      {sync?.sender === "no-network" && (
        <ErrorNotice
          happened="There is no network, so the server cannot be told now."
          todo="This tablet shows nothing of yours from now on. The server ends the session as soon as the tablet reaches it: open the tablet's page once where there is a signal."
        />
      )}
    </ScreenFrame>
  );
}
