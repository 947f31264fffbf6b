import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import type { FoundThing } from "@/lib/db/search";

const kindWord = { customer: "Customer", site: "Site", equipment: "Unit" } as const;

/** What a search of the register found, each a way to the thing itself. */
export function FoundList(props: { company: string; query: string; found: readonly FoundThing[] }) {
  const { company, query, found } = props;
  if (found.length === 0)
    return (
      <EmptyState title={`Nothing found for “${query}”`}>
        Every word must occur in the name, phone, address, maker, model or serial. Archived things are not searched.
      </EmptyState>
    );
  return (
    <ul className="grid" aria-label="Found">
      {found.map((thing) => (
        <li
          key={`${thing.kind} ${thing.id}`}
          className="grid grid-cols-[5rem_1fr] items-baseline gap-3 border-b border-hairline py-2"
        >
          <span className="text-small text-ink-soft">{kindWord[thing.kind]}</span>
          <span className="min-w-0">
            <Link href={hrefOf(company, thing)} className="font-medium">
              {thing.label}
            </Link>{" "}
            <span className="text-ink-soft">{thing.detail}</span>
          </span>
        </li>
      ))}
    </ul>
  );
}

function hrefOf(company: string, { kind, id, customerId }: FoundThing): string {
  switch (kind) {
    case "customer":
      return `/${company}/customers/${id}`;
    case "site":
      return `/${company}/customers/${customerId}/sites/${id}`;
    case "equipment":
      return `/${company}/equipment/${id}`;
  }
}
