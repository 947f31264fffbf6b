import { serverFonts } from "@/components/certificate/server-fonts";
import { drawRecord } from "@/components/refrigerant/record-pdf";
import { readRecords } from "@/lib/db/refrigerant/records";
import { withTenant } from "@/lib/db/tenant";
import { forMember, notHere, refuse } from "@/lib/http/answer";
import { CircuitId } from "@/lib/ids";
import { writeRecordTable } from "@/lib/work/inspector-record";
import { dayAt, isDay } from "@/lib/work/site-time";

type Asked = { params: Promise<{ company: string; circuitId: string }> };

/** A circuit's record of a period for an inspector, as PDF or CSV. */
export async function GET(request: Request, { params }: Asked) {
  const { company, circuitId } = await params;
  return forMember(company, ["supervisor", "owner"], async (member) => {
    const id = CircuitId.safeParse(circuitId);
    if (!id.success) return notHere();
    const asked = new URL(request.url).searchParams;
    const today = dayAt(new Date(), member.timeZone);
    const [from, to] = [asked.get("from") ?? "2000-01-01", asked.get("to") ?? today];
    if (!isDay(from) || !isDay(to)) return refuse(400, "malformed", "The period is two days, year-month-day.");
    const record = await withTenant(member.companyId, (tx) => readRecords(tx, id.data, { from, to }));
    if (!record) return notHere();
    const asTable = asked.get("form") === "csv";
    const body = asTable
      ? `\ufeff${writeRecordTable(record)}`
      : await drawRecord(record, new Date(), await serverFonts());
    return new Response(body, {
      headers: {
        "content-type": asTable ? "text/csv; charset=utf-8" : "application/pdf",
        "content-disposition": `attachment; filename="refrigerant-record-${from}-to-${to}.${asTable ? "csv" : "pdf"}"`,
        "cache-control": "private, no-store",
      },
    });
  });
}
