"use client";

import { useState } from "react";
import { Button, LinkButton } from "@/components/ui/button";
import { Callout, ErrorNotice } from "@/components/ui/notices";
import { canLock, signOutHere } from "@/lib/sync/device";
import { signOutWords } from "@/lib/words/en/sign-out";
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
  const home = { href: addressOf(desk.slug, { screen: "today" }), label: signOutWords.backToToday };
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
      title={signOutWords.signOut}
      back={home}
      actions={
        <>
          <Button
            kind="action"
            pending={pending}
            pendingWord={signOutWords.signingOut}
            disabled={refused}
            onClick={() => void leave()}
          >
            {waiting > 0 ? signOutWords.lockItAway : signOutWords.signOut}
          </Button>
          <LinkButton href={home.href}>{signOutWords.staySignedIn}</LinkButton>
        </>
      }
    >
      <h1 className="text-title">{signOutWords.signOutPerson(person.name)}</h1>
      {waiting > 0 ? (
        <Callout kind="note" title={signOutWords.notSentYet(waiting)}>
          <p>{refused ? signOutWords.cannotLockAway : signOutWords.staysLocked}</p>
          <Button className="mt-2" pending={sync?.sender === "sending"} onClick={() => void sender.nudge()}>
            {signOutWords.sendNow}
          </Button>
        </Callout>
      ) : (
        <p>{signOutWords.allSent}</p>
      )}
      {drafts !== undefined && drafts > 0 && (
        <p>
          {signOutWords.halfFilledIn(drafts)} {canLock() ? signOutWords.typedIsLockedAway : signOutWords.typedStays}
        </p>
      )}
      <p className="text-ink-soft">{signOutWords.takenOffTheTablet}</p>
      {sync?.sender === "no-network" && (
        <ErrorNotice happened={signOutWords.noNetwork} todo={signOutWords.noNetworkTodo} />
      )}
    </ScreenFrame>
  );
}
