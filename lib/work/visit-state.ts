export const visitStates = ["planned", "on-the-way", "on-site", "left-for-today", "done", "cancelled"] as const;
export type VisitState = (typeof visitStates)[number];

const followers: Record<VisitState, readonly VisitState[]> = {
  planned: ["on-the-way", "on-site", "cancelled"],
  "on-the-way": ["on-site", "planned", "cancelled"],
  "on-site": ["left-for-today", "done"],
  "left-for-today": [],
  done: [],
  cancelled: [],
};

/** Whether a visit may go from one state to another; what has ended stays ended. */
export function mayBecome(from: VisitState, to: VisitState): boolean {
  return followers[from].includes(to);
}

export function isVisitState(value: unknown): value is VisitState {
  return visitStates.includes(value as VisitState);
}

/** States in which time and people can still be changed. */
export function isMovable(state: VisitState): boolean {
  return state === "planned" || state === "on-the-way";
}

export function hasEnded(state: VisitState): boolean {
  return followers[state].length === 0;
}
