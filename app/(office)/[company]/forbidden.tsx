import { ForbiddenNotice } from "@/components/ui/notices";
import { PageHeader } from "@/components/ui/page-header";

export default function NotForThisRole() {
  return (
    <>
      <PageHeader title="Not open to you" />
      <ForbiddenNotice />
    </>
  );
}
