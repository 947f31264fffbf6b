import { isStillMember } from "@/lib/auth/session";
import { forMember } from "@/lib/http/answer";
import { changeListener } from "@/lib/live/change-listener";
import { changeStream } from "@/lib/live/change-stream";

/** That something of the company changed, as it happens, by kind and id: `event: change`, or `event: missed` to ask for everything again. */
export async function GET(request: Request, { params }: { params: Promise<{ company: string }> }) {
  return forMember((await params).company, [], async (member) => {
    const stream = changeStream({
      follow: (subscriber) => changeListener().follow(member.companyId, subscriber),
      mayFollow: () => isStillMember(member),
      isBack: request.headers.has("last-event-id"),
      signal: request.signal,
    });
    return new Response(stream, {
      headers: {
        "content-type": "text/event-stream; charset=utf-8",
        // Neither kept, nor packed into blocks, nor held back by a proxy: each would hold back the events.
        "cache-control": "no-store, no-transform",
        "x-accel-buffering": "no",
      },
    });
  });
}
