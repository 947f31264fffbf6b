import { Button, LinkButton } from "@/components/ui/button";
import { ErrorNotice, ForbiddenNotice } from "@/components/ui/notices";
import type { FetchOutcome } from "@/lib/sync/device";
import { frameWords } from "@/lib/words/en/frame";
import { nothingHereWords } from "@/lib/words/en/nothing-here";

/** Why there is nothing to show on this device yet, and what to do. */
export function NothingKept(props: { what: string; outcome: FetchOutcome; onRetry: () => void }) {
  const retry = <Button onClick={props.onRetry}>{nothingHereWords.tryAgain}</Button>;
  switch (props.outcome) {
    case "no-network":
      return (
        <ErrorNotice
          happened={nothingHereWords.notFetched(props.what)}
          safe={nothingHereWords.nothingIsLost}
          todo={nothingHereWords.goWhereASignalIs}
          action={retry}
        />
      );
    case "signed-out":
      return (
        <ErrorNotice
          happened={nothingHereWords.sessionEnded}
          safe={nothingHereWords.savedIsStillHere}
          todo={nothingHereWords.signInAgain}
          action={<LinkButton href="/sign-in">{frameWords.signIn}</LinkButton>}
        />
      );
    case "forbidden":
      return <ForbiddenNotice />;
    case "not-found":
      return (
        <ErrorNotice
          happened={nothingHereWords.isNotThere(props.what)}
          todo={nothingHereWords.askTheOffice}
          action={retry}
        />
      );
    case "server-trouble":
    case "fresh":
      return (
        <ErrorNotice
          happened={nothingHereWords.serverTrouble}
          safe={nothingHereWords.savedIsStillHere}
          action={retry}
        />
      );
  }
}
