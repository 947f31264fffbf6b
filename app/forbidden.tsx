import { FreshStart } from "@/components/ui/fresh-start";
import { ForbiddenNotice } from "@/components/ui/notices";

export default function Forbidden() {
  return (
    <main id="work" className="mx-auto grid max-w-2xl gap-4 px-5 py-10">
      <h1 className="text-title">Not open to you</h1>
      <ForbiddenNotice action={<FreshStart />} />
    </main>
  );
}
