import type { RouteKind } from "next/dist/server/route-kind";
import { AppRouteRouteModule, type AppRouteUserlandModule } from "next/dist/server/route-modules/app-route/module";
import { NextRequest } from "next/server";
import { encode } from "next-auth/jwt";
import * as changes from "@/app/api/[company]/changes/route";
import * as entries from "@/app/api/[company]/entries/route";
import * as log from "@/app/api/[company]/jobs/[jobId]/log/route";
import * as receipts from "@/app/api/[company]/jobs/[jobId]/receipts/route";
import * as chunk from "@/app/api/[company]/jobs/[jobId]/traces/[traceId]/chunks/[index]/route";
import type { PersonId } from "@/lib/ids";

const ORIGIN = "http://dryhold.example";
const SECRET = "a secret of the tests that is long enough";

/** A request as the framework hands it over, without the port in between. */
export type Serve = (path: string, request: RequestInit, cookie: string) => Promise<Response>;

/** The tablet's route handlers under the framework's own module for routes: its request scope, cookies and errors are real. */
export async function serveRoutes(): Promise<Serve> {
  process.env.NEXTAUTH_SECRET = SECRET;
  process.env.NEXTAUTH_URL = ORIGIN;
  const routes = await Promise.all([
    route("/api/[company]/entries", entries),
    route("/api/[company]/changes", changes),
    route("/api/[company]/jobs/[jobId]/log", log),
    route("/api/[company]/jobs/[jobId]/receipts", receipts),
    route("/api/[company]/jobs/[jobId]/traces/[traceId]/chunks/[index]", chunk),
  ]);
  return async (path, init, cookie) => {
    const url = new URL(path, ORIGIN);
    const headers = new Headers(init.headers);
    headers.set("cookie", cookie);
    const request = new NextRequest(url, { ...init, headers, duplex: "half" } as ConstructorParameters<
      typeof NextRequest
    >[1]);
    for (const { pattern, names, module } of routes) {
      const found = pattern.exec(url.pathname);
      if (!found) continue;
      const params = Object.fromEntries(names.map((name, at) => [name, found[at + 1]!]));
      const response = await module.handle(request, contextOf(params));
      response.headers.set("date", new Date().toUTCString());
      return response;
    }
    throw new Error(`no route for ${url.pathname}`);
  };
}

/** The cookie of a session, as sign-in would set it. */
export async function sessionCookie(sessionId: string, person: PersonId): Promise<string> {
  const token = await encode({ token: { sid: sessionId, sub: person }, secret: SECRET });
  return `next-auth.session-token=${token}`;
}

async function route(pathname: string, handlers: object) {
  const names: string[] = [];
  const pattern = pathname.replace(/\[(\w+)\]/g, (_whole, name: string) => {
    names.push(name);
    return "([^/]+)";
  });
  const module = new AppRouteRouteModule({
    userland: () => handlers as AppRouteUserlandModule,
    definition: {
      kind: "APP_ROUTE" as RouteKind.APP_ROUTE,
      page: `${pathname}/route`,
      pathname,
      filename: "route",
      bundlePath: `app${pathname}/route`,
    },
    distDir: ".next",
    relativeProjectDir: "",
    resolvedPagePath: `app${pathname}/route.ts`,
    nextConfigOutput: undefined,
  });
  await module.ensureUserland();
  return { pattern: new RegExp(`^${pattern}$`), names, module };
}

function contextOf(params: Record<string, string>) {
  return {
    params,
    renderOpts: { experimental: {}, supportsDynamicResponse: true, onClose: () => {} },
    previewProps: {},
    sharedContext: { buildId: "test", deploymentId: "" },
  } as unknown as Parameters<AppRouteRouteModule["handle"]>[1];
}
