import type { NextRequest } from "next/server";
import * as z from "zod";
import { findMember } from "@/lib/auth/session";
import { searchRegister } from "@/lib/db/search";
import { withTenant } from "@/lib/db/tenant";

const question = z.strictObject({
  q: z
    .string()
    .trim()
    .max(200)
    .regex(/^[^\0]*$/),
  kinds: z
    .string()
    .default("customer,site,equipment")
    .transform((text) => text.split(","))
    .pipe(
      z
        .array(z.enum(["customer", "site", "equipment"]))
        .min(1)
        .max(3),
    ),
  limit: z.coerce.number().int().min(1).max(50).default(12),
});

/** What the register holds under a few letters: `?q=…&kinds=customer,site,equipment&limit=12`. */
export async function GET(request: NextRequest, { params }: { params: Promise<{ company: string }> }) {
  const member = await findMember((await params).company);
  if (!member.ok) return Response.json({ code: member.error.code }, { status: statusOf[member.error.code] });
  const asked = question.safeParse(Object.fromEntries(request.nextUrl.searchParams));
  if (!asked.success) return Response.json({ code: "malformed-query" }, { status: 400 });
  const { q, kinds, limit } = asked.data;
  const found = await withTenant(member.value.companyId, (tx) => searchRegister(tx, q, { kinds, limit }));
  return Response.json({ found }, { headers: { "cache-control": "private, no-store" } });
}

const statusOf = { "not-signed-in": 401, "not-found": 404, forbidden: 403 } as const;
