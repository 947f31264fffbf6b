"use client";

import { useCallback, useEffect, useRef, useState } from "react";
import type { Proposal } from "@/lib/planner/propose-changes";
import type { Board } from "@/lib/work/board/board";
import type { ProposalQuestion } from "@/lib/work/board/plan-command";
import { proposePlan } from "../actions";
import { computedAnew } from "./board-words";

export type ProposalState =
  | { readonly step: "none" }
  | { readonly step: "working"; readonly question: ProposalQuestion; readonly because: string }
  | { readonly step: "failed"; readonly question: ProposalQuestion; readonly words: string }
  | {
      readonly step: "shown";
      readonly proposal: Proposal;
      readonly chosen: ReadonlySet<string>;
      /** Why it was computed anew; empty for the first one. */
      readonly because: string;
    };

/** A proposal beside the board. When the board changes under it, it says so and is computed anew. */
export function useProposal(company: string, board: Board) {
  const [state, setState] = useState<ProposalState>({ step: "none" });
  const turn = useRef(0);

  const ask = useCallback(
    async (question: ProposalQuestion, because = "") => {
      const mine = ++turn.current;
      setState({ step: "working", question, because });
      const answer = await proposePlan(company, question).catch(() => null);
      if (mine !== turn.current) return;
      if (answer === null || !answer.ok)
        return setState({ step: "failed", question, words: failureWords(answer?.error.code) });
      const chosen = new Set(answer.value.differences.map(({ id }) => id));
      setState({ step: "shown", proposal: answer.value, chosen, because });
    },
    [company],
  );

  const close = useCallback(() => {
    turn.current += 1;
    setState({ step: "none" });
  }, []);

  const toggle = useCallback((id: string) => {
    setState((now) => {
      if (now.step !== "shown") return now;
      const chosen = new Set(now.chosen);
      if (!chosen.delete(id)) chosen.add(id);
      return { ...now, chosen };
    });
  }, []);

  useEffect(() => {
    if (state.step !== "shown") return;
    const changed = changedSince(state.proposal, board);
    if (changed !== null) void ask(state.proposal.question, computedAnew(changed));
  }, [board, state, ask]);

  return { state, ask, close, toggle };
}

/** What on the board is no longer as the proposal saw it, in words; null when nothing. */
function changedSince({ basis, differences }: Proposal, board: Board): string | null {
  const now = new Map(board.visits.map((visit) => [visit.id, visit]));
  for (const { id, version } of basis) {
    const visit = now.get(id);
    if (visit && visit.version !== version) return visit.label;
  }
  const gone = differences.find(({ id }) => !now.has(id));
  return gone ? gone.customer : null;
}

function failureWords(code: string | undefined): string {
  switch (code) {
    case "planner-busy":
      return "The planner is busy with other questions.";
    case "not-found":
      return "This visit cannot be planned on that day any more.";
    default:
      return "The planner did not answer.";
  }
}
