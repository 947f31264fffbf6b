import { listPapers } from "@/lib/db/refrigerant/papers";
import { withTenant } from "@/lib/db/tenant";
import { forMember } from "@/lib/http/answer";
import { writeTable } from "@/lib/registry/import/read-table";
import { paperWords, readPaperQuery } from "@/lib/work/paper-query";
import { dayAt } from "@/lib/work/site-time";

const MOST = 10_000;
const columns = [
  "day",
  "what",
  "cylinder",
  "appliance",
  "customer",
  "site",
  "refrigerant",
  "kg",
  "with_whom",
  "number",
  "written_by",
  "note",
];

/** The papers an address asks for, a line each, at most ten thousand. */
export async function GET(request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMember((await params).company, ["supervisor", "owner"], async ({ companyId, timeZone, slug }) => {
    const asked = Object.fromEntries(new URL(request.url).searchParams);
    const query = readPaperQuery(asked, dayAt(new Date(), timeZone));
    const papers = await withTenant(companyId, (tx) => listPapers(tx, query, { take: MOST, skip: query.skip }));
    const lines = papers.map((paper) => [
      paper.on_day,
      paperWords[paper.kind],
      paper.cylinder ?? "",
      paper.appliance ?? "",
      paper.customer ?? "",
      paper.site ?? "",
      paper.refrigerant ?? "",
      paper.grams === null ? "" : (paper.grams / 1000).toFixed(3),
      paper.party,
      paper.number,
      paper.person,
      paper.note,
    ]);
    return new Response(`\ufeff${writeTable(columns, lines)}`, {
      headers: {
        "content-type": "text/csv; charset=utf-8",
        "content-disposition": `attachment; filename="${slug}-refrigerant-papers.csv"`,
        "cache-control": "private, no-store",
      },
    });
  });
}
