import type { Asked, Judged, Traces } from "./answer";
import type { FromWorker, ToWorker } from "./judge.worker";

interface Waiting {
  readonly asked: Asked;
  readonly question: Judged[Asked]["question"];
  readonly traces: Traces;
  readonly resolve: (answer: Judged[Asked]["answer"]) => void;
  readonly reject: (cause: Error) => void;
}

const none: Traces = new Map();
const waiting = new Map<number, Waiting>();
let turn = 0;
let worker: Worker | null | undefined; // null: none starts here, the page judges by itself
let held: Traces = none;

/** The answer of the judges, from a worker; where none starts the page itself judges, with the code fetched for it. */
export function ask<A extends Asked>(
  asked: A,
  question: Judged[A]["question"],
  traces: Traces = none,
): Promise<Judged[A]["answer"]> {
  turn += 1;
  return new Promise((resolve, reject) => {
    waiting.set(turn, { asked, question, traces, resolve: resolve as Waiting["resolve"], reject });
    put(turn);
  });
}

/** Starts the worker ahead of the first question. */
export function startJudging(): void {
  if (worker === undefined) worker = start();
}

function put(which: number): void {
  const wait = waiting.get(which);
  if (!wait) return;
  startJudging();
  if (!worker) return void judgeHere(which, wait);
  const { asked, question, traces } = wait;
  const changed = traces !== held && traces !== none;
  const message: ToWorker = { turn: which, asked, question, ...(changed && { traces }) };
  if (changed) held = traces;
  worker.postMessage(message);
}

function start(): Worker | null {
  try {
    const started = new Worker(new URL("./judge.worker.ts", import.meta.url), { type: "module", name: "judges" });
    started.onmessage = ({ data }: MessageEvent<FromWorker>) => {
      const wait = waiting.get(data.turn);
      waiting.delete(data.turn);
      if ("answer" in data) wait?.resolve(data.answer);
      else wait?.reject(new Error(data.failed));
    };
    started.onerror = (event) => {
      console.error("The judges' worker does not run; the page judges by itself.", event.message);
      started.terminate();
      worker = null;
      for (const which of [...waiting.keys()]) put(which);
    };
    return started;
  } catch (cause) {
    console.error(cause);
    return null;
  }
}

async function judgeHere(which: number, { asked, question, traces, resolve, reject }: Waiting): Promise<void> {
  waiting.delete(which);
  try {
    const { answer } = await import("./answer");
    resolve(answer(asked, question, traces));
  } catch (cause) {
    reject(cause instanceof Error ? cause : new Error(String(cause)));
  }
}
