import type { Metadata } from "next";
import { LinkButton } from "@/components/ui/button";
import { Link } from "@/components/ui/link";
import { EmptyState } from "@/components/ui/notices";
import { homeOf } from "@/lib/auth/home";
import { requirePerson } from "@/lib/auth/session";

export const metadata: Metadata = { title: "Companies" };

export default async function CompaniesPage() {
  const { name, memberships } = await requirePerson();
  return (
    <>
      <h1 className="text-title">Where to, {name}?</h1>
      {memberships.length === 0 ? (
        <EmptyState title="You belong to no company yet">
          <p>A supervisor or owner can send you an invitation link. If you had access before, it was taken away.</p>
        </EmptyState>
      ) : (
        <ul className="grid gap-px">
          {memberships.map((each) => (
            <li key={each.companyId} className="border-b border-hairline">
              <Link href={homeOf(each)} className="grid min-h-14 content-center py-2">
                <span className="font-semibold">{each.companyName}</span>
                <span className="text-small text-ink-soft">{each.roles.join(", ")}</span>
              </Link>
            </li>
          ))}
        </ul>
      )}
      <div className="flex flex-wrap gap-3">
        <LinkButton href="/account">My account</LinkButton>
        <LinkButton href="/sign-out">Sign out</LinkButton>
      </div>
    </>
  );
}
