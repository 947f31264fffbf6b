/** The longest written IPv6 address with a zone; whatever is longer is no address. */
const MAX_ADDRESS_CHARS = 100;

/** The address a request came from as the nearest proxy (or the server itself) noted it: the last hop, not what a client may claim first. */
export function lastHop(forwardedFor: string | null | undefined): string {
  return forwardedFor?.split(",").at(-1)?.trim().slice(0, MAX_ADDRESS_CHARS) ?? "unknown";
}
