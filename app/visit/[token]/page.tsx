import type { Metadata } from "next";
import { Facts } from "@/components/ui/section";
import { StateMark } from "@/components/ui/state-mark";
import type { OrderStatus } from "@/lib/messages/order-status";
import { readStatus, type StatusAnswer } from "./read-status";

export const metadata: Metadata = {
  title: "Your visit",
  referrer: "no-referrer",
  robots: { index: false, follow: false, noarchive: true },
};

/** For a customer on a phone: when does somebody come, who, and how far is it. */
export default async function VisitStatusPage({ params }: { params: Promise<{ token: string }> }) {
  const answer = await readStatus((await params).token);
  return (
    <main id="content" className="mx-auto grid w-full max-w-xl content-start gap-6 px-4 py-10">
      {answer.at === "shown" ? (
        <Shown companyName={answer.companyName} status={answer.status} />
      ) : (
        <NotShown {...notShown(answer)} />
      )}
    </main>
  );
}

function Shown({ companyName, status }: { companyName: string; status: OrderStatus }) {
  const { number, state, title, words, when, who, timeZone } = status;
  return (
    <>
      <p className="font-semibold">{companyName}</p>
      <header className="grid gap-2">
        <h1 className="text-title">
          <StateMark state={state} word={title} />
        </h1>
        {when && <p className="text-title">{when}</p>}
        <p>{words}</p>
      </header>
      <Facts
        items={[
          ...(who ? [{ term: "Who comes", value: who }] : []),
          { term: "Work order", value: String(number) },
          ...(when ? [{ term: "Clock", value: timeZone.replaceAll("_", " ") }] : []),
        ]}
      />
      <p className="text-small text-ink-soft">
        Load the page again to see whether anything changed. Whoever has this address can see what you see.
      </p>
    </>
  );
}

function notShown(answer: Exclude<StatusAnswer, { at: "shown" }>): { title: string; words: string } {
  switch (answer.at) {
    case "unknown":
      return {
        title: "No visit is known at this address",
        words: "Open it exactly as it was sent to you, or call the company you expect.",
      };
    case "wait":
      return {
        title: "Too many wrong addresses came from here",
        words: `Wait ${answer.seconds} seconds, then load this page again.`,
      };
    case "revoked":
      return {
        title: "This address was taken back",
        words: `${answer.companyName} has withdrawn it. Call them to hear how your visit stands.`,
      };
  }
}

function NotShown({ title, words }: { title: string; words: string }) {
  return (
    <header className="grid gap-2">
      <h1 className="text-title">{title}</h1>
      <p>{words}</p>
    </header>
  );
}
