import * as z from "zod";
import { listSentReadings } from "@/lib/db/instrument-batches";
import { withTenant } from "@/lib/db/tenant";
import { findTool } from "@/lib/db/tools";
import { answer, forMember, notHere, refuse } from "@/lib/http/answer";
import { ToolId } from "@/lib/ids";

const span = z.object({ from: z.iso.datetime(), to: z.iso.datetime() });

/** What an instrument sent by itself between two moments, as it came. */
export async function GET(request: Request, context: { params: Promise<Record<"company" | "toolId", string>> }) {
  const { company, toolId } = await context.params;
  return forMember(company, [], async ({ companyId }) => {
    const id = ToolId.safeParse(toolId);
    if (!id.success) return notHere();
    const asked = span.safeParse(Object.fromEntries(new URL(request.url).searchParams));
    const found = await withTenant(companyId, async (tx) => {
      if (!(await findTool(tx, id.data))) return null;
      if (!asked.success) return "no-span";
      return listSentReadings(tx, id.data, new Date(asked.data.from), new Date(asked.data.to));
    });
    if (found === null) return notHere();
    if (found === "no-span") return refuse(400, "no-span", "Say from when (from) and until when (to).");
    return answer({ readings: found });
  });
}
