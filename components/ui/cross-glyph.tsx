/** The small cross of every button that closes or clears; the button itself carries the word. */
export function CrossGlyph() {
  return (
    <svg viewBox="0 0 16 16" className="size-4" fill="none" stroke="currentColor" strokeWidth="1.5" aria-hidden="true">
      <path d="m3 3 10 10M13 3 3 13" />
    </svg>
  );
}
