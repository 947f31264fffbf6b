import type { MouseEvent } from "react";
import { placeAt } from "./place";

/**
 * A link to another place of the tablet changes the address and nothing else. One that leads away loads its page anew: the
 * tablet's page may have come from the device, and nothing of it is of use elsewhere.
 */
export function follow(event: MouseEvent<HTMLElement>, slug: string | null) {
  if (event.button !== 0 || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return;
  const link = (event.target as Element).closest("a");
  if (link?.target !== "" || link.origin !== window.location.origin) return;
  event.preventDefault();
  if (slug !== null && placeAt(link.pathname, slug) !== null)
    window.history.pushState(null, "", link.pathname + link.search);
  else window.location.assign(link.href);
}
