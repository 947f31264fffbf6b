import { FilterLinks } from "@/components/work/filter-links";

/** The readings of the refrigerant books, each with its address. */
export function RefrigerantPages(props: {
  company: string;
  here: "mass" | "cylinders" | "due" | "postings" | "papers";
}) {
  const base = `/${props.company}/refrigerant`;
  return (
    <FilterLinks
      label="Refrigerant"
      chosen={props.here}
      filters={[
        { value: "mass", label: "Where it went", href: base },
        { value: "cylinders", label: "Cylinders", href: `${base}/cylinders` },
        { value: "due", label: "What is due", href: `${base}/due` },
        { value: "postings", label: "Postings", href: `${base}/postings` },
        { value: "papers", label: "Papers", href: `${base}/papers` },
      ]}
    />
  );
}
