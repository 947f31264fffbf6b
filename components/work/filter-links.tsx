import { classNames } from "@/components/ui/class-names";
import { Link } from "@/components/ui/link";

/** A choice between a few views of one list, each with its own address. */
export function FilterLinks(props: {
  label: string;
  chosen: string;
  filters: readonly { value: string; label: string; href: string }[];
}) {
  return (
    <nav aria-label={props.label} className="no-print flex flex-wrap gap-x-5 gap-y-1">
      {props.filters.map((filter) => {
        const chosen = filter.value === props.chosen;
        return (
          <Link
            key={filter.value}
            href={filter.href}
            aria-current={chosen ? "page" : undefined}
            className={classNames(
              "inline-flex min-h-8 items-center border-b-2",
              chosen ? "border-action font-semibold text-ink no-underline" : "border-transparent",
            )}
          >
            {filter.label}
          </Link>
        );
      })}
    </nav>
  );
}
