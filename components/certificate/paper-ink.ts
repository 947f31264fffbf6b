import type { State } from "@/components/ui/state-mark";

/** The light inks of the screens as printing inks; each state keeps its shape and word beside its colour. */
export const ink = {
  text: "#1e1a15",
  soft: "#57514c",
  edge: "#7b7770",
  hairline: "#d2cfca",
  wash: "#f3f1ed",
} as const;

export const stateInk: Record<State, string> = {
  proven: "#126635",
  working: "#2c56a8",
  waiting: "#57514c",
  "needs-you": "#8d4e00",
  refused: "#a51f1e",
  "cannot-say": "#6d457e",
};
