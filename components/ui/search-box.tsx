import type { ComponentProps } from "react";
import { classNames } from "./class-names";
import { KeyHint } from "./key-hint";

/** A search field whose label is always there for screen readers; Escape clears it, as the browser does. */
export function SearchBox(props: { label: string; shortcut?: string } & Omit<ComponentProps<"input">, "type">) {
  const { label, shortcut, className, ...input } = props;
  return (
    <label className={classNames("relative flex items-center", className)}>
      <span className="sr-only">{label}</span>
      <svg viewBox="0 0 16 16" aria-hidden="true" className="absolute left-2.5 size-4 text-ink-soft" fill="none">
        <circle cx="7" cy="7" r="4.5" stroke="currentColor" strokeWidth="1.5" />
        <path d="m10.5 10.5 4 4" stroke="currentColor" strokeWidth="1.5" />
      </svg>
      <input
        type="search"
        placeholder={label}
        autoComplete="off"
        {...input}
        {...(shortcut && { "aria-keyshortcuts": shortcut })}
        className="control pl-8"
      />
      {shortcut && (
        <span className="pointer-events-none absolute right-2">
          <KeyHint keys={[shortcut]} />
        </span>
      )}
    </label>
  );
}
