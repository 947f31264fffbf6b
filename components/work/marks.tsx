import { type State, StateMark } from "@/components/ui/state-mark";

const urgency: Record<string, { state: State; word: string }> = {
  danger: { state: "refused", word: "Danger" },
  today: { state: "needs-you", word: "Today" },
  soon: { state: "waiting", word: "Next days" },
  planned: { state: "waiting", word: "Planned" },
};

export function Urgency(props: { urgency: string }) {
  return <StateMark {...(urgency[props.urgency] ?? { state: "cannot-say", word: props.urgency })} />;
}

const call: Record<string, { state: State; word: string }> = {
  new: { state: "needs-you", word: "Waiting for an order" },
  ordered: { state: "working", word: "Ordered" },
  done: { state: "proven", word: "Done" },
  cancelled: { state: "refused", word: "Cancelled" },
};

export function CallState(props: { state: string }) {
  return <StateMark {...(call[props.state] ?? { state: "cannot-say", word: props.state })} />;
}

const order: Record<string, { state: State; word: string }> = {
  open: { state: "working", word: "Open" },
  done: { state: "proven", word: "Done" },
  cancelled: { state: "refused", word: "Cancelled" },
};

export function OrderState(props: { state: string }) {
  return <StateMark {...(order[props.state] ?? { state: "cannot-say", word: props.state })} />;
}

const visit: Record<string, { state: State; word: string }> = {
  planned: { state: "waiting", word: "Planned" },
  "on-the-way": { state: "working", word: "On the way" },
  "on-site": { state: "working", word: "On site" },
  "left-for-today": { state: "needs-you", word: "Left for today" },
  done: { state: "proven", word: "Done" },
  cancelled: { state: "refused", word: "Cancelled" },
};

export function visitMark(state: string): { state: State; word: string } {
  return visit[state] ?? { state: "cannot-say", word: state };
}

export function VisitStateMark(props: { state: string }) {
  return <StateMark {...visitMark(props.state)} />;
}

const job: Record<string, { state: State; word: string }> = {
  open: { state: "working", word: "Open" },
  "left-for-today": { state: "waiting", word: "Left for today" },
  "needs-review": { state: "needs-you", word: "Needs review" },
  closed: { state: "proven", word: "Closed, proven" },
};

export function JobStateMark(props: { state: string }) {
  return <StateMark {...(job[props.state] ?? { state: "cannot-say", word: props.state })} />;
}

const strength: Record<string, { state: State; word: string }> = {
  strong: { state: "proven", word: "Strong" },
  fair: { state: "working", word: "Fair" },
  weak: { state: "needs-you", word: "Weak" },
  none: { state: "cannot-say", word: "None" },
};

/** How strong the proof of a job is; nothing while there is nothing to say yet. */
export function StrengthMark(props: { strength: string | null }) {
  if (props.strength === null) return <span className="text-ink-soft">not yet</span>;
  return <StateMark {...(strength[props.strength] ?? { state: "cannot-say", word: props.strength })} />;
}
