import { classNames } from "./class-names";

/** The name beside a level that falls and then holds. */
export function Wordmark({ className }: { className?: string }) {
  return (
    <span className={classNames("inline-flex items-center gap-2 font-semibold tracking-tight", className)}>
      <svg viewBox="0 0 20 20" className="size-5" fill="none" aria-hidden="true">
        <path d="M1.5 2c1.2 9.5 3.6 13.5 8 13.5h9" stroke="currentColor" strokeWidth="2.25" />
        <path d="M9.5 11v9" stroke="currentColor" strokeWidth="1.25" />
      </svg>
      Dryhold
    </span>
  );
}
