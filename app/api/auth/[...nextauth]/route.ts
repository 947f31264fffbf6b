import NextAuth from "next-auth";
import { authOptions } from "@/lib/auth/options";

type Context = { params: Promise<{ nextauth: string[] }> };

const handler = (request: Request, context: Context) => NextAuth(authOptions())(request, context);

export { handler as GET, handler as POST };
