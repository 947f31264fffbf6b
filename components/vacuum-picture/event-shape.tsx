import type { EventKind } from "./marks";

/** What was done, as a shape that stays apart in black and white; drawn around (0, 0), about 10 px across. */
export function EventShape({ kind }: { kind: EventKind }) {
  switch (kind) {
    case "valve-closed":
      return <path d="M-6-4 6 4V-4L-6 4Z" fill="currentColor" />;
    case "nitrogen-in":
      return <path d="M0 5-5-2H-1.5V-5H1.5V-2H5Z" fill="currentColor" />;
    case "ballast":
      return <circle r="4.5" fill="var(--ground)" stroke="currentColor" strokeWidth="1.5" />;
    case "oil":
      return <path d="M0-6C3-2 4.5 0 4.5 1.5a4.5 4.5 0 0 1-9 0C-4.5 0-3-2 0-6Z" fill="currentColor" />;
    case "note":
      return <path d="M-4-4H4V4H-4Z" fill="var(--ground)" stroke="currentColor" strokeWidth="1.5" />;
  }
}
