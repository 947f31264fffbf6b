import { office } from "@/lib/auth/roles";
import { findMember } from "@/lib/auth/session";
import { listForExport } from "@/lib/db/import-register";
import { withTenant } from "@/lib/db/tenant";
import { writeRegister } from "@/lib/registry/import/export-lines";

/** Customers, sites and units as a CSV file that the import reads back. */
export async function GET(_request: Request, { params }: { params: Promise<{ company: string }> }) {
  const member = await findMember((await params).company, ...office);
  if (!member.ok) return Response.json({ code: member.error.code }, { status: statusOf[member.error.code] });
  const customers = await withTenant(member.value.companyId, listForExport);
  return new Response(`\ufeff${writeRegister(customers)}`, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${member.value.slug}-customers.csv"`,
      "cache-control": "private, no-store",
    },
  });
}

const statusOf = { "not-signed-in": 401, "not-found": 404, forbidden: 403 } as const;
