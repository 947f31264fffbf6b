import { EmptyState } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";

export default function NothingHere() {
  return (
    <>
      <PageHeader title="Nothing here" />
      <EmptyState title="There is no such thing, or it is not yours to see.">
        Check the address, or look for it by name, street or serial number in the line above.
      </EmptyState>
    </>
  );
}
