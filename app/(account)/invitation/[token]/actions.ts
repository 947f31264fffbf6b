"use server";

import { redirect } from "next/navigation";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { hashOfToken } from "@/lib/auth/invitation-token";
import { hashPassword, weaknessOf } from "@/lib/auth/password";
import type { PasswordFailure } from "@/lib/auth/password-failure";
import { requirePerson } from "@/lib/auth/session";
import { acceptInvitation, findInvitation } from "@/lib/db/gate";
import { PersonId } from "@/lib/ids";
import { err, type Result } from "@/lib/result";

export type JoinFailure = PasswordFailure | { code: "name-missing" } | { code: "not-usable" };

const joinForm = z.object({
  token: z.string().max(100),
  name: z.string().trim().min(1).max(200),
  next: z.string(),
  again: z.string(),
});

/** Makes the account of a new person and the membership together; then the person signs in. */
export async function joinAsNewPerson(_previous: unknown, data: FormData): Promise<Result<never, JoinFailure>> {
  const form = joinForm.safeParse(Object.fromEntries(data));
  if (!form.success) return err({ code: "name-missing" });
  const { token, name, next, again } = form.data;
  const weakness = weaknessOf(next);
  if (weakness) return err({ code: weakness });
  if (next !== again) return err({ code: "not-repeated" });
  const tokenHash = hashOfToken(token);
  const offer = await findInvitation(tokenHash);
  if (!offer || offer.known_person) return err({ code: "not-usable" });
  const taker = {
    person: PersonId.parse(uuidv7()),
    isNew: true,
    name,
    passwordHash: await hashPassword(next),
  } as const;
  const slug = await acceptInvitation(tokenHash, taker);
  if (!slug) return err({ code: "not-usable" });
  redirect("/sign-in");
}

export async function joinAsKnownPerson(data: FormData): Promise<void> {
  const { personId } = await requirePerson();
  const slug = await acceptInvitation(hashOfToken(String(data.get("token"))), { person: personId, isNew: false });
  redirect(slug ? "/" : `/invitation/${encodeURIComponent(String(data.get("token")))}`);
}
