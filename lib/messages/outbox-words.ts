/** How a message of the outbox stands, for the office: its state's shape and a sentence. */
export function outboxWords(message: { readonly state: string; readonly why: string; readonly kind: string }): {
  readonly state: "proven" | "working" | "waiting" | "needs-you" | "refused" | "cannot-say";
  readonly words: string;
} {
  const { state, why } = message;
  switch (state) {
    case "waiting":
      if (why !== "")
        return { state: "waiting", words: `The mail server refused it for now (${why}); it is tried again.` };
      return { state: "waiting", words: "Waits a moment, in case the plan changes again." };
    case "sending":
      return { state: "working", words: "Being sent." };
    case "sent":
      return { state: "proven", words: "Handed to the mail server." };
    case "kept":
      return { state: "waiting", words: "Kept here: no mail server is set up, so it was not sent." };
    case "dropped":
      return { state: "cannot-say", words: droppedWords[why] ?? "Not sent." };
    case "failed":
      return { state: "refused", words: `Not sent: the mail server refused it (${why}). Call the customer.` };
    default:
      return {
        state: "needs-you",
        words: "Nobody knows whether it arrived, so it is not sent again. Call the customer.",
      };
  }
}

const droppedWords: Readonly<Record<string, string>> = {
  "nothing-new": "Not sent: the customer knows this already.",
  "no-consent": "Not sent: the customer no longer agrees to be written to.",
  "too-late": "Not sent: it was more than twelve hours late.",
};
