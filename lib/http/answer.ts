import "server-only";
import type { ZodType } from "zod";
import type { Role } from "@/lib/auth/roles";
import { findFormerMember, findMember, type Member } from "@/lib/auth/session";
import type { BodyError } from "./read-body";

const headers = { "cache-control": "no-store" };

export function answer(body: unknown, status = 200): Response {
  return Response.json(body, { status, headers });
}

/** A refusal: a code for programs, a sentence for people, and where it applies. */
export function refuse(status: number, code: string, message: string, detail: object = {}): Response {
  return answer({ error: { code, message, ...detail } }, status);
}

export const notHere = () => refuse(404, "not-found", "There is nothing at this address.");

export function refuseBody(error: BodyError): Response {
  if (error.code === "not-json") return refuse(400, "not-json", `The body is not JSON: ${error.message}`);
  return refuse(413, "too-large", `The body is larger than ${error.maxBytes} bytes. Send it in parts.`);
}

/** Runs a handler for a member of the company; everyone else gets what a stranger gets. A bug becomes one neutral sentence. */
export async function forMember(
  slug: string,
  anyOf: readonly Role[],
  handle: (member: Member) => Promise<Response>,
): Promise<Response> {
  const found = await findMember(slug, ...anyOf);
  if (found.ok) return handled(found.value, handle);
  switch (found.error.code) {
    case "not-signed-in":
      return refuse(401, "not-signed-in", "Sign in to go on.");
    case "not-found":
      return notHere();
    case "forbidden":
      return refuse(403, "forbidden", "Your role in this company does not include this.");
  }
}

/** As `forMember` for any member, and for who was one: what they still have on a tablet must not be lost with their membership. */
export async function forMemberOrFormer(
  slug: string,
  handle: (member: Member) => Promise<Response>,
): Promise<Response> {
  const answered = await forMember(slug, [], handle);
  if (answered.status !== 404) return answered;
  const former = await findFormerMember(slug);
  return former ? handled(former, handle) : answered;
}

async function handled(member: Member, handle: (member: Member) => Promise<Response>): Promise<Response> {
  try {
    return await handle(member);
  } catch (problem) {
    console.error("request failed", problem instanceof Error ? (problem.stack ?? problem.message) : "unknown");
    return refuse(500, "failed", "Something went wrong on the server. Try again.");
  }
}

/** As `forMember` for an address with ids in it; one that is not well formed is no address. */
export async function atAddress<Given extends { company: string }, Address>(
  context: { params: Promise<Given> },
  address: ZodType<Address>,
  handle: (member: Member, at: Address) => Promise<Response>,
): Promise<Response> {
  const given = await context.params;
  return forMember(given.company, [], async (member) => {
    const at = address.safeParse(given);
    return at.success ? handle(member, at.data) : notHere();
  });
}
