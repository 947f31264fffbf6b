import * as z from "zod";
import type { Misfit } from "./fit";

const id = z.uuid().lowercase();
const instantMs = z.int().min(0).max(8_640_000_000_000);
const version = z.int().min(0);

/** What a dispatcher asks of the board, by mouse, finger, keyboard or command line alike. */
export const planCommand = z.discriminatedUnion("do", [
  z.strictObject({
    do: z.literal("place"),
    kind: z.enum(["visit", "call"]),
    id,
    version,
    personId: id,
    /** On whose row it was taken up, where several people go. */
    fromPersonId: id.nullable(),
    startMs: instantMs,
    /** The misfits were seen, and it is to be there all the same. */
    anyway: z.boolean(),
  }),
  z.strictObject({ do: z.literal("take-off"), id, version }),
  z.strictObject({ do: z.literal("lengthen"), id, version, minutes: z.int().min(5).max(1440) }),
  z.strictObject({ do: z.literal("away"), personId: id, fromMs: instantMs, toMs: instantMs }),
  z.strictObject({ do: z.literal("undo"), change: id }),
  z.strictObject({
    do: z.literal("accept"),
    /** Every visit of the day as the proposal saw it. */
    basis: z.array(z.strictObject({ id, version })).max(2000),
    moves: z
      .array(
        z.strictObject({
          kind: z.enum(["visit", "call"]),
          id,
          version,
          people: z.array(id).max(10),
          startMs: instantMs.nullable(),
        }),
      )
      .min(1)
      .max(500),
  }),
]);
export type PlanCommand = z.infer<typeof planCommand>;

/** What a proposal is asked for. */
export const proposalQuestion = z.discriminatedUnion("want", [
  /** Everything that has not begun, and what has no place yet. */
  z.strictObject({ want: z.literal("rest"), day: z.iso.date() }),
  /** One visit or call; the others move only where it cannot be done without. */
  z.strictObject({ want: z.literal("place"), day: z.iso.date(), kind: z.enum(["visit", "call"]), id }),
  /** What an absence or an overrun upset; nothing new is planned. */
  z.strictObject({ want: z.literal("absorb"), day: z.iso.date() }),
]);
export type ProposalQuestion = z.infer<typeof proposalQuestion>;

export interface PlanChange {
  /** Names the change, to take it back. */
  readonly change: string;
  readonly words: string;
}

export type PlanRefusal =
  | { readonly code: "does-not-fit"; readonly misfits: readonly Misfit[]; readonly mayAnyway: boolean }
  /** Somebody else was there first; `words` says who and what, and nothing was overwritten. */
  | { readonly code: "changed-meanwhile"; readonly words: string }
  | { readonly code: "refused"; readonly words: string }
  | { readonly code: "not-found" };
