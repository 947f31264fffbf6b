"use server";

import { revalidatePath } from "next/cache";
import { redirect } from "next/navigation";
import { z } from "zod";
import { hashPassword, passwordFits, weaknessOf } from "@/lib/auth/password";
import type { PasswordFailure } from "@/lib/auth/password-failure";
import { requirePerson } from "@/lib/auth/session";
import {
  ACCOUNT_PACE,
  endAllSessions,
  endSession,
  findPerson,
  forgiveGuesses,
  setPassword,
  takeGuess,
} from "@/lib/db/gate";
import { err, ok, type Result } from "@/lib/result";

/** Ends every session of the person, this one too. */
export async function signOutEverywhere(): Promise<void> {
  const { personId } = await requirePerson();
  await endAllSessions(personId);
  redirect("/sign-in");
}

export async function endOneSession(form: FormData): Promise<void> {
  const { personId } = await requirePerson();
  const id = z.uuid().safeParse(form.get("session"));
  if (id.success) await endSession(id.data, personId);
  revalidatePath("/account");
}

/** Changes the password, then ends every session: whoever knew the old one is out. */
export async function changePassword(_previous: unknown, form: FormData): Promise<Result<null, PasswordFailure>> {
  const { personId } = await requirePerson();
  const key = `password-change:${personId}`;
  const waitS = await takeGuess(key, ACCOUNT_PACE);
  if (waitS > 0) return err({ code: "wait", waitS });
  const person = await findPerson(personId);
  if (!(await passwordFits(String(form.get("now")), person?.passwordHash ?? null)))
    return err({ code: "wrong-password" });
  await forgiveGuesses(key);
  const next = String(form.get("next"));
  const weakness = weaknessOf(next);
  if (weakness) return err({ code: weakness });
  if (next !== form.get("again")) return err({ code: "not-repeated" });
  await setPassword(personId, await hashPassword(next));
  await endAllSessions(personId);
  return ok(null);
}
