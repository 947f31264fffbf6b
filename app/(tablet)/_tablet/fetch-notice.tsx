import { Button, LinkButton } from "@/components/ui/button";
import { ErrorNotice, ForbiddenNotice } from "@/components/ui/notices";
import type { FetchOutcome } from "@/lib/sync/device";

/** Why there is nothing to show on this device yet, and what to do. */
export function NothingKept(props: { what: string; outcome: FetchOutcome; onRetry: () => void }) {
  const retry = <Button onClick={props.onRetry}>Try again</Button>;
  switch (props.outcome) {
    case "no-network":
      return (
        <ErrorNotice
          happened={`${props.what} has not been fetched to this tablet, and there is no network.`}
          safe="Nothing is lost."
          todo="Go where there is a signal once; afterwards it opens without one."
          action={retry}
        />
      );
    case "signed-out":
      return (
        <ErrorNotice
          happened="The session has ended."
          safe="What was saved on this tablet is still here."
          todo="Sign in again to fetch it."
          action={
            <LinkButton prefetch={false} href="/sign-in">
              Sign in
            </LinkButton>
          }
        />
      );
    case "forbidden":
      return <ForbiddenNotice />;
    case "not-found":
      return (
        <ErrorNotice
          happened={`${props.what} is not there.`}
          todo="It may have been given to someone else, or the address is wrong. Ask the office."
          action={retry}
        />
      );
    case "server-trouble":
    case "fresh":
      return (
        <ErrorNotice
          happened="The server did not answer as it should."
          safe="What was saved on this tablet is still here."
          action={retry}
        />
      );
  }
}
