/** The key that does it, beside the thing it does. Hidden where there is no keyboard to speak of. */
export function KeyHint({ keys }: { keys: readonly string[] }) {
  return (
    <span className="hidden whitespace-nowrap text-small text-ink-soft pointer-fine:inline">
      {keys.map((key, index) => (
        <span key={key}>
          {index > 0 && " "}
          <kbd className="rounded-control border border-hairline bg-raised px-1 font-mono text-[0.9em]">{key}</kbd>
        </span>
      ))}
    </span>
  );
}
