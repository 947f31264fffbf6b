import { FreshStart } from "@/components/ui/fresh-start";
import { EmptyState } from "@/components/ui/notices";

export default function NotFound() {
  return (
    <main id="work" className="mx-auto grid max-w-2xl gap-4 px-5 py-10">
      <h1 className="text-title">Nothing here</h1>
      <EmptyState title="There is no such page, or it is not yours to see." action={<FreshStart />}>
        Check the address, or start from the first page.
      </EmptyState>
    </main>
  );
}
