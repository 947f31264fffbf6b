import { findMember, type Member } from "@/lib/auth/session";
import { listOutcomeJobs } from "@/lib/db/quality-jobs";
import { withTenant } from "@/lib/db/tenant";
import { writeTable } from "@/lib/registry/import/read-table";
import { causeWords } from "@/lib/work/callback-words";
import { type OutcomeFilter, readOutcomeQuery } from "@/lib/work/outcome-query";
import { readQualityQuery } from "@/lib/work/quality-period";
import { dayAt } from "@/lib/work/site-time";

const CHUNK = 2000;
const columns = ["job", "closed", "proof", "kind", "unit_age", "closed_by", "customer", "unit", "callback", "cause"];
const statusOf = { "not-signed-in": 401, "not-found": 404, forbidden: 403 } as const;

/** The jobs an address of the dashboard asks for, a line each, sent as they are read. */
export async function GET(request: Request, { params }: { params: Promise<{ company: string }> }) {
  const member = await findMember((await params).company, "supervisor", "owner");
  if (!member.ok) return Response.json({ code: member.error.code }, { status: statusOf[member.error.code] });
  const { companyId, timeZone, slug } = member.value;
  const asked = Object.fromEntries(new URL(request.url).searchParams);
  const today = dayAt(new Date(), timeZone);
  const { callbackWindowDays: windowDays } = await withTenant(companyId, (tx) =>
    tx.company.findFirstOrThrow({ select: { callbackWindowDays: true } }),
  );
  const filter = readOutcomeQuery(asked, readQualityQuery(asked, today), { today, windowDays });
  return new Response(streamOf(csvOf(member.value, filter)), {
    headers: {
      "content-type": "text/csv; charset=utf-8",
      "content-disposition": `attachment; filename="${slug}-jobs.csv"`,
      "cache-control": "private, no-store",
    },
  });
}

async function* csvOf({ companyId }: Member, filter: OutcomeFilter): AsyncGenerator<Uint8Array> {
  const encoder = new TextEncoder();
  yield encoder.encode(`\ufeff${writeTable(columns, [])}`);
  for (let skip = 0; ; skip += CHUNK) {
    const jobs = await withTenant(companyId, (tx) => listOutcomeJobs(tx, filter, { take: CHUNK, skip }));
    const lines = jobs.map((each) => [
      String(each.number),
      each.closedOn,
      each.strength,
      each.jobKind,
      each.unitAge,
      each.person?.name ?? "",
      each.customer,
      each.unit,
      each.callbackOn ?? "",
      each.callback ? causeWords(each.callback.causeCode, each.callback.ownCause) : "",
    ]);
    const table = writeTable(columns, lines);
    if (lines.length > 0) yield encoder.encode(table.slice(table.indexOf("\r\n")));
    if (jobs.length < CHUNK) return;
  }
}

function streamOf(chunks: AsyncGenerator<Uint8Array>): ReadableStream<Uint8Array> {
  return new ReadableStream({
    async pull(controller) {
      const { value, done } = await chunks.next();
      if (done) controller.close();
      else controller.enqueue(value);
    },
    async cancel() {
      await chunks.return(undefined);
    },
  });
}
