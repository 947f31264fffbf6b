import type { Metadata } from "next";
import { Facts } from "@/components/ui/section";
import { type State, StateMark } from "@/components/ui/state-mark";
import { type CheckOutcome, digestGroups, type PaperVerdicts, SHOWS_NOT } from "@/lib/certificate";
import { type CheckedPaper, checkPaper } from "./check-paper";

export const metadata: Metadata = {
  title: "Check a certificate",
  referrer: "no-referrer",
  robots: { index: false, follow: false, noarchive: true },
};

/** For whoever holds a paper: whether it still says what the record says, computed again now. */
export default async function CheckPage({ params }: { params: Promise<{ token: string }> }) {
  const answer = await checkPaper((await params).token);
  return (
    <main id="content" className="mx-auto grid w-full max-w-2xl content-start gap-6 px-4 py-12">
      <p className="font-semibold">Dryhold</p>
      {answer.at === "checked" ? <Checked paper={answer.paper} /> : <NotChecked {...notChecked(answer)} />}
    </main>
  );
}

function notChecked(
  answer: { at: "unknown" } | { at: "wait"; seconds: number } | { at: "revoked"; companyName: string },
) {
  switch (answer.at) {
    case "unknown":
      return {
        title: "No paper is known at this address",
        words:
          "Type the address exactly as it is printed, or scan the square code again. A tablet that was without a network may not have sent it yet.",
      };
    case "wait":
      return {
        title: "Too many wrong addresses came from here",
        words: `Wait ${answer.seconds} seconds, then load this page again.`,
      };
    case "revoked":
      return {
        title: "This paper's address was taken back",
        words: `${answer.companyName} has withdrawn it. Ask them for a paper that holds.`,
      };
  }
}

function NotChecked({ title, words }: { title: string; words: string }) {
  return (
    <header className="grid gap-2">
      <h1 className="text-title">{title}</h1>
      <p>{words}</p>
    </header>
  );
}

function Checked({ paper }: { paper: CheckedPaper }) {
  const { check } = paper;
  const { state, title, words } = outcomeWords[check.outcome];
  return (
    <>
      <header className="grid gap-2">
        <h1 className="text-title">
          <StateMark state={state} word={title} />
        </h1>
        <p>{words}</p>
      </header>
      <Facts
        items={[
          { term: "Company", value: paper.companyName },
          { term: "Certificate", value: `Job ${paper.jobNumber}` },
          { term: "Unit", value: paper.unit },
          { term: "Refrigerant", value: paper.refrigerant },
          { term: "Closed", value: paper.closedAt ?? "not here yet" },
          { term: "Proof, judged now", value: check.strength },
          { term: "Pressure test", value: verdictWord(check.verdicts.pressureTest) },
          { term: "Leak check", value: verdictWord(check.verdicts.leakCheck) },
          { term: "Isolated hold", value: verdictWord(check.verdicts.hold) },
          {
            term: "Digest, computed now",
            value: <span className="font-mono">{check.digest ? digestGroups(check.digest) : "not here yet"}</span>,
          },
        ]}
      />
      <p>
        Hold the paper beside this page: company, job, unit and digest must read the same. A square code can be copied
        onto another paper.
      </p>
      <ul className="grid list-disc gap-1 pl-5 text-small text-ink-soft">
        {SHOWS_NOT.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}

const outcomeWords: Record<CheckOutcome, { state: State; title: string; words: string }> = {
  matches: {
    state: "proven",
    title: "This paper matches the record",
    words: "Digest and verdict were computed again from the stored record just now, and are those of the paper.",
  },
  "judged-otherwise": {
    state: "needs-you",
    title: "The record is unaltered, and is judged otherwise today",
    words:
      "The entries are those the paper was made from. The rules have changed since, and judge them as shown below.",
  },
  "entries-came-later": {
    state: "needs-you",
    title: "This paper is out of date",
    words: "What it was made from is unaltered, but more was recorded after the job was closed. Ask for a new paper.",
  },
  altered: {
    state: "refused",
    title: "This paper does not match the record",
    words:
      "The digest computed from the stored record is not the one the paper was made with: an entry was changed or is missing.",
  },
  "not-arrived": {
    state: "waiting",
    title: "The record of this paper is not here",
    words: "The closing it was made from has not arrived. A tablet may still keep it; check again later.",
  },
};

function verdictWord(verdict: PaperVerdicts[keyof PaperVerdicts]): string {
  const words: Record<string, string> = {
    complete: "no joint found leaking",
    allowed: "not proven, allowed by a supervisor",
    "left-out": "left out on its grounds",
    none: "none",
  };
  return words[verdict] ?? verdict.replaceAll("-", " ");
}
