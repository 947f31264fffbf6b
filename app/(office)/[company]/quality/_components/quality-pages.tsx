import { FilterLinks } from "@/components/work/filter-links";

/** The readings of quality, each with its address. */
export function QualityPages({ company, here }: { company: string; here: "proof" | "decisions" | "tools" }) {
  return (
    <FilterLinks
      label="Quality"
      chosen={here}
      filters={[
        { value: "proof", label: "Proof and callbacks", href: `/${company}/quality/proof` },
        { value: "decisions", label: "What waits", href: `/${company}/quality/decisions` },
      ]}
    />
  );
}
