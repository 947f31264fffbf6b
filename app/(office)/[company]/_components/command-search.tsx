"use client";

import { useRouter } from "next/navigation";
import { useEffect, useRef } from "react";
import { Finder, type Found } from "@/components/ui/finder";
import type { FoundThing } from "@/lib/db/search";

const placeOf = { customer: "customers", site: "sites", equipment: "equipment" } as const;
const wordOf = { customer: "Customer", site: "Site", equipment: "Unit" } as const;

/** One line that finds anything of the register and goes there; "/" puts the cursor in it from anywhere. */
export function CommandSearch({ company }: { company: string }) {
  const router = useRouter();
  const box = useRef<HTMLDivElement>(null);

  useEffect(() => {
    function onKey(event: KeyboardEvent) {
      const typing =
        event.target instanceof HTMLElement && event.target.closest("input, textarea, select, [contenteditable]");
      if (event.key !== "/" || event.ctrlKey || event.metaKey || event.altKey || typing) return;
      event.preventDefault();
      box.current?.querySelector("input")?.focus();
    }
    document.addEventListener("keydown", onKey);
    return () => document.removeEventListener("keydown", onKey);
  }, []);

  async function search(query: string): Promise<Found[]> {
    if (query.trim().length < 2) return [];
    const answer = await fetch(`/api/${company}/search?${new URLSearchParams({ q: query.slice(0, 200) })}`);
    if (!answer.ok) throw new Error(`search answered ${answer.status}`);
    const { found } = (await answer.json()) as { found: FoundThing[] };
    return found.map((thing) => ({
      value: addressOf(thing),
      label: thing.label,
      detail: [wordOf[thing.kind], thing.detail].filter(Boolean).join(" · "),
    }));
  }
  const addressOf = ({ kind, id, customerId }: FoundThing) =>
    kind === "site" ? `/${company}/customers/${customerId}/sites/${id}` : `/${company}/${placeOf[kind]}/${id}`;

  return (
    <div ref={box} className="max-w-xl">
      <Finder
        label="Find a customer, site or unit"
        labelHidden
        placeholder="Find a customer, site or unit ( / )"
        emptyWords="Nothing found. Two letters or more of a name, phone, street or serial."
        search={search}
        chosen={null}
        onChoose={(found) => found && router.push(found.value)}
      />
    </div>
  );
}
