import "server-only";
import { forbidden, notFound, redirect } from "next/navigation";
import { connection } from "next/server";
import { getServerSession } from "next-auth";
import { cache } from "react";
import { z } from "zod";
import { checkSession, formerMembershipsOf, type Membership, membershipsOf } from "@/lib/db/gate";
import type { PersonId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { authOptions } from "./options";
import type { Role } from "./roles";

export interface Person {
  personId: PersonId;
  sessionId: string;
  name: string;
  email: string;
}

/** A person in one company, with what they may do there. */
export interface Member extends Person, Membership {}

const tokenClaims = z.object({ sid: z.uuid() });

/** Who is signed in, checked against the session row; null when nobody is, or the session was ended elsewhere. */
export const currentPerson = cache(async (): Promise<Person | null> => {
  await connection(); // never at build time, which has no environment
  const claims = tokenClaims.safeParse(await getServerSession(authOptions()));
  if (!claims.success) return null;
  const person = await checkSession(claims.data.sid);
  return person && { ...person, sessionId: claims.data.sid };
});

const membershipsNow = cache(membershipsOf);

/** Who is signed in and where they belong; sends anyone else to the sign-in page. */
export async function requirePerson(): Promise<Person & { memberships: readonly Membership[] }> {
  const person = await currentPerson();
  if (!person) redirect("/sign-in");
  return { ...person, memberships: await membershipsNow(person.personId) };
}

/**
 * The signed-in member of the company at this address who has one of the roles (any member when none is named).
 * Someone else's company looks exactly like none (not found); one's own without the role is forbidden. For pages and actions.
 */
export async function requireMember(slug: unknown, ...anyOf: Role[]): Promise<Member> {
  const found = await findMember(slug, ...anyOf);
  if (found.ok) return found.value;
  switch (found.error.code) {
    case "not-signed-in":
      return redirect("/sign-in");
    case "not-found":
      return notFound();
    case "forbidden":
      return forbidden();
  }
}

/** The same question for route handlers, which answer with a status instead of a page. */
export async function findMember(
  slug: unknown,
  ...anyOf: Role[]
): Promise<Result<Member, { code: "not-signed-in" | "not-found" | "forbidden" }>> {
  const person = await currentPerson();
  if (!person) return err({ code: "not-signed-in" });
  const membership = (await membershipsNow(person.personId)).find((each) => each.slug === slug);
  if (!membership) return err({ code: "not-found" });
  if (anyOf.length > 0 && !anyOf.some((role) => membership.roles.includes(role))) return err({ code: "forbidden" });
  return ok({ ...person, ...membership });
}

/** Somebody signed in who once belonged to the company and does not any more, as a member without roles; else null. */
export async function findFormerMember(slug: unknown): Promise<Member | null> {
  const person = await currentPerson();
  if (!person) return null;
  const membership = (await formerMembershipsOf(person.personId)).find((each) => each.slug === slug);
  return membership ? { ...person, ...membership } : null;
}

/** Whether the session still lives and its person still belongs to the company; asked anew each time, for answers that go on and on. */
export async function isStillMember(member: Member): Promise<boolean> {
  const person = await checkSession(member.sessionId);
  if (person?.personId !== member.personId) return false;
  return (await membershipsOf(member.personId)).some((each) => each.companyId === member.companyId);
}
