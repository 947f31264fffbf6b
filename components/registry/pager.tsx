import { Link } from "@/components/ui/link";

/** Earlier and later parts of a long list. */
export function Pager(props: { page: number; hasNext: boolean; hrefOf: (page: number) => string }) {
  const { page, hasNext, hrefOf } = props;
  if (page === 0 && !hasNext) return null;
  return (
    <nav aria-label="Parts of the list" className="flex gap-6">
      {page > 0 && <Link href={hrefOf(page - 1)}>← Earlier in the list</Link>}
      <span className="text-ink-soft tabular-nums">Part {page + 1}</span>
      {hasNext && <Link href={hrefOf(page + 1)}>Further on →</Link>}
    </nav>
  );
}
