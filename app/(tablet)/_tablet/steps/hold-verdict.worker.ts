import { judgeHold } from "@/lib/hvac";
import type { HoldAnswer, HoldQuestion } from "./use-hold-verdict";

/** Judges a running hold beside the page, so that the clock, the pad and the picture never wait for it. */
self.onmessage = ({ data }: MessageEvent<HoldQuestion>) => {
  const answer: HoldAnswer = { turn: data.turn, judgement: judgeHold(data.record) };
  self.postMessage(answer);
};
