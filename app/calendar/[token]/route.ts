import { lastHop } from "@/lib/auth/last-hop";
import { LINK_TOKEN_FORM, linkTokenHash } from "@/lib/auth/link-token";
import { writeFeed } from "@/lib/calendar/feed";
import { listFeedVisits } from "@/lib/db/calendar-feeds";
import { ADDRESS_PACE, findCalendarFeed, returnGuess, takeGuess } from "@/lib/db/gate";
import { withTenant } from "@/lib/db/tenant";
import { servingEnv } from "@/lib/env";

/** A technician's visits for a calendar program. Wrong and withdrawn addresses look alike and count as guesses of whoever asks. */
export async function GET(request: Request, { params }: { params: Promise<{ token: string }> }): Promise<Response> {
  const token = (await params).token.replace(/\.ics$/, "");
  if (!LINK_TOKEN_FORM.test(token)) return nothing(404);
  const asker = `calendar:${lastHop(request.headers.get("x-forwarded-for"))}`;
  const seconds = await takeGuess(asker, ADDRESS_PACE);
  if (seconds > 0) return nothing(429, { "Retry-After": String(seconds) });
  const feed = await findCalendarFeed(linkTokenHash(token));
  if (!feed) return nothing(404);
  await returnGuess(asker);
  const now = new Date();
  const visits = await withTenant(feed.companyId, (tx) => listFeedVisits(tx, feed.personId, now));
  const tabletUrl = `${servingEnv().NEXTAUTH_URL.replace(/\/+$/, "")}/t/${feed.slug}`;
  return new Response(writeFeed({ name: `Visits, ${feed.companyName}`, tabletUrl }, visits, now), {
    headers: {
      "Content-Type": "text/calendar; charset=utf-8",
      "Content-Disposition": 'inline; filename="visits.ics"',
      "Cache-Control": "private, max-age=300",
      "X-Robots-Tag": "noindex",
    },
  });
}

const nothing = (status: number, headers: Record<string, string> = {}) => new Response(null, { status, headers });
