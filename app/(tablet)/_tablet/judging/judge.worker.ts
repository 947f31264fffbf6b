import { type Asked, answer, type Judged, type Traces } from "./answer";

export interface ToWorker {
  readonly turn: number;
  readonly asked: Asked;
  readonly question: Judged[Asked]["question"];
  /** Sent when they are others than last time: hours of readings are not copied with every question. */
  readonly traces?: Traces;
}
export type FromWorker = { readonly turn: number } & (
  | { readonly answer: Judged[Asked]["answer"] }
  | { readonly failed: string }
);

let traces: Traces = new Map();

/** Judges beside the page, so that the clock, the pad and the picture never wait for it. */
self.onmessage = ({ data }: MessageEvent<ToWorker>) => {
  if (data.traces) traces = data.traces;
  self.postMessage(reply(data));
};

function reply({ turn, asked, question }: ToWorker): FromWorker {
  try {
    return { turn, answer: answer(asked, question, traces) };
  } catch (cause) {
    return { turn, failed: cause instanceof Error ? (cause.stack ?? cause.message) : String(cause) };
  }
}
