"use client";

import { usePathname, useRouter } from "next/navigation";
import { useEffect, useRef, useTransition } from "react";
import { SearchBox } from "@/components/ui/search-box";

const TYPING_PAUSE_MS = 180;

/** Searches while one types: the query stands in the address, so that a result can be opened, left and come back to. */
export function LiveSearch(props: { label: string; query: string; keep?: Readonly<Record<string, string>> }) {
  const router = useRouter();
  const path = usePathname();
  const [pending, start] = useTransition();
  const timer = useRef<ReturnType<typeof setTimeout>>(undefined);
  useEffect(() => () => clearTimeout(timer.current), []);

  function search(query: string) {
    clearTimeout(timer.current);
    timer.current = setTimeout(() => {
      const address = new URLSearchParams({ ...props.keep, ...(query.trim() && { q: query }) }).toString();
      start(() => router.replace(address ? `${path}?${address}` : path, { scroll: false }));
    }, TYPING_PAUSE_MS);
  }
  return (
    <form action={path} className="max-w-xl" aria-busy={pending} onSubmit={(event) => event.preventDefault()}>
      <SearchBox
        label={props.label}
        name="q"
        maxLength={200}
        defaultValue={props.query}
        onChange={(event) => search(event.target.value)}
      />
      <p role="status" className="sr-only">
        {pending ? "Searching" : ""}
      </p>
    </form>
  );
}
