import { office } from "@/lib/auth/roles";
import { findMember } from "@/lib/auth/session";
import { readOrderLines } from "@/lib/db/order-lines";
import { withTenant } from "@/lib/db/tenant";
import { isUuid } from "@/lib/ids";
import { writeTable } from "@/lib/registry/import/read-table";

const columns = ["kind", "day", "job", "what", "quantity", "unit", "detail"];
const statusOf = { "not-signed-in": 401, "not-found": 404, forbidden: 403 } as const;

/** Labour, parts and refrigerant of a work order as a CSV file for the bookkeeper. */
export async function GET(_request: Request, { params }: { params: Promise<{ company: string; orderId: string }> }) {
  const { company, orderId } = await params;
  const member = await findMember(company, ...office);
  if (!member.ok) return Response.json({ code: member.error.code }, { status: statusOf[member.error.code] });
  const order = isUuid(orderId) ? await withTenant(member.value.companyId, (tx) => readOrderLines(tx, orderId)) : null;
  if (!order) return Response.json({ code: "not-found" }, { status: 404 });
  const rows = order.lines.map((line) => [
    line.kind,
    line.on,
    line.job,
    line.what,
    line.quantity,
    line.unit,
    line.detail,
  ]);
  return new Response(`\ufeff${writeTable(columns, rows)}`, {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="work-order-${order.number}.csv"`,
      "cache-control": "private, no-store",
    },
  });
}
