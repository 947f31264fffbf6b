"use client";

import { useRouter } from "next/navigation";
import { Finder } from "@/components/ui/finder";
import { searchCustomers } from "../actions";

/** Search by name, phone, address or serial number; choosing goes on with that customer. */
export function CustomerFinder({ company }: { company: string }) {
  const router = useRouter();
  return (
    <Finder
      label="Customer"
      hint="Name, phone, street or serial number."
      emptyWords="No customer found. Type on, or add a new one."
      search={(query) => searchCustomers(company, query)}
      onChoose={(found) => found && router.push(`/${company}/calls/new?${found.value}`)}
    />
  );
}
