/** Where on the tablet someone is. One page serves every place, so that moving about needs no network. */
export type Place =
  | { readonly screen: "today" }
  | { readonly screen: "visit"; readonly visitId: string }
  | { readonly screen: "job"; readonly jobId: string }
  | { readonly screen: "sign-out" };

const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/;

/** The place an address of this company means, or null for one that means nothing. */
export function placeOf(segments: readonly string[]): Place | null {
  const [kind, id, ...rest] = segments;
  if (kind === undefined) return { screen: "today" };
  if (kind === "sign-out" && id === undefined) return { screen: "sign-out" };
  if (id === undefined || !UUID.test(id) || rest.length > 0) return null;
  if (kind === "visits") return { screen: "visit", visitId: id };
  return kind === "jobs" ? { screen: "job", jobId: id } : null;
}

export function placeAt(pathname: string, slug: string): Place | null {
  const home = addressOf(slug, { screen: "today" });
  if (pathname !== home && !pathname.startsWith(`${home}/`)) return null;
  return placeOf(
    pathname
      .slice(home.length)
      .split("/")
      .filter((part) => part !== ""),
  );
}

/** The company an address of the tablet names; null for the bare start address of the installed program. */
export function slugAt(pathname: string): string | null {
  return /^\/t\/([^/]+)/.exec(pathname)?.[1] ?? null;
}

export function addressOf(slug: string, place: Place): string {
  switch (place.screen) {
    case "today":
      return `/t/${slug}`;
    case "visit":
      return `/t/${slug}/visits/${place.visitId}`;
    case "job":
      return `/t/${slug}/jobs/${place.jobId}`;
    case "sign-out":
      return `/t/${slug}/sign-out`;
  }
}
