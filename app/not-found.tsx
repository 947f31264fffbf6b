import { LinkButton } from "@/components/ui/button";
import { EmptyState } from "@/components/ui/notices";

export default function NotFound() {
  return (
    <main id="work" className="mx-auto grid max-w-2xl gap-4 px-5 py-10">
      <h1 className="text-title">Nothing here</h1>
      <EmptyState
        title="There is no such page, or it is not yours to see."
        action={<LinkButton href="/">Go to the start</LinkButton>}
      >
        Check the address, or start from the first page.
      </EmptyState>
    </main>
  );
}
