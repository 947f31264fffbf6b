import "server-only";
import type { NextAuthOptions } from "next-auth";
import Credentials from "next-auth/providers/credentials";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import {
  ACCOUNT_PACE,
  ADDRESS_PACE,
  endSession,
  findSignIn,
  forgiveGuesses,
  openSession,
  returnGuess,
  takeGuess,
} from "@/lib/db/gate";
import { servingEnv } from "@/lib/env";
import { PersonId } from "@/lib/ids";
import { lastHop } from "./last-hop";
import { passwordFits } from "./password";

const thirtyDaysS = 30 * 24 * 3600;

const signInForm = z.object({
  email: z.string().trim().toLowerCase().min(3).max(320),
  password: z.string().min(1).max(200),
});

/** Sign-in by password. The token carries a session row's id and nothing else is believed: ending the row ends the sign-in. */
export const authOptions = (): NextAuthOptions => ({
  secret: servingEnv().NEXTAUTH_SECRET,
  session: { strategy: "jwt", maxAge: thirtyDaysS },
  pages: { signIn: "/sign-in", error: "/sign-in", signOut: "/sign-out" },
  providers: [
    Credentials({
      name: "password",
      credentials: { email: {}, password: {} },
      async authorize(credentials, request) {
        const form = signInForm.safeParse(credentials);
        if (!form.success) throw new Error("wrong");
        const { email, password } = form.data;
        const account = `account:${email}`;
        const address = `address:${lastHop(request.headers?.["x-forwarded-for"])}`;
        const waitS = (await takeGuess(address, ADDRESS_PACE)) || (await takeGuess(account, ACCOUNT_PACE));
        if (waitS > 0) throw new Error(`wait:${waitS}`);
        const person = await findSignIn(email);
        if (!(await passwordFits(password, person?.passwordHash ?? null)) || !person) throw new Error("wrong");
        await forgiveGuesses(account);
        await returnGuess(address);
        const sessionId = uuidv7();
        await openSession(sessionId, person.personId, request.headers?.["user-agent"] ?? "", thirtyDaysS);
        return { id: person.personId, name: person.name, email, sessionId };
      },
    }),
  ],
  callbacks: {
    jwt({ token, user }) {
      if (user) token.sid = (user as unknown as { sessionId: string }).sessionId;
      return token;
    },
    session({ session, token }) {
      return { ...session, sid: token.sid, pid: token.sub };
    },
  },
  events: {
    async signOut({ token }) {
      const person = PersonId.safeParse(token?.sub);
      if (person.success && typeof token?.sid === "string") await endSession(token.sid, person.data);
    },
  },
});
