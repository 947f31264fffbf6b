import type { ReactNode } from "react";
import { Link } from "@/components/ui/link";
import { OfficeFrame, type Place } from "@/components/ui/office-frame";
import { UndoProvider } from "@/components/ui/undo";
import { office, type Role } from "@/lib/auth/roles";
import { requireMember, requirePerson } from "@/lib/auth/session";
import { CommandSearch } from "./_components/command-search";

const places: readonly { path: string; label: string; roles: readonly Role[] | "everyone" }[] = [
  { path: "board", label: "Board", roles: office },
  { path: "calls", label: "Calls", roles: office },
  { path: "work-orders", label: "Work orders", roles: office },
  { path: "jobs", label: "Jobs", roles: office },
  { path: "customers", label: "Customers", roles: "everyone" },
  { path: "equipment", label: "Units", roles: "everyone" },
  { path: "tools", label: "Tools", roles: "everyone" },
  { path: "cylinders", label: "Cylinders", roles: "everyone" },
  { path: "people", label: "People", roles: office },
  { path: "callbacks", label: "Callbacks", roles: ["supervisor", "owner"] },
  { path: "quality", label: "Quality", roles: ["supervisor", "owner"] },
  { path: "refrigerant", label: "Refrigerant", roles: ["supervisor", "owner"] },
  { path: "exceptions", label: "Exceptions", roles: ["supervisor", "owner"] },
  { path: "settings", label: "Settings", roles: ["supervisor", "owner"] },
];

/** The office around every page: what this member may open, whose company it is, and the way out. */
export default async function OfficeLayout(props: { children: ReactNode; params: Promise<{ company: string }> }) {
  const { company } = await props.params;
  const member = await requireMember(company);
  const { memberships } = await requirePerson();
  const mayOpen = (roles: readonly Role[] | "everyone") =>
    roles === "everyone" || roles.some((role) => member.roles.includes(role));
  const open: Place[] = places
    .filter(({ roles }) => mayOpen(roles))
    .map(({ path, label }) => ({ href: `/${company}/${path}`, label }));
  if (member.roles.includes("technician")) open.unshift({ href: `/t/${company}`, label: "My visits" });
  return (
    <UndoProvider>
      <OfficeFrame
        company={{
          name: member.companyName,
          ...(memberships.length > 1 && { switcher: <Link href="/companies">Change company</Link> }),
        }}
        places={open}
        person={<Link href="/account">{member.memberName}</Link>}
        signOut={<Link href="/sign-out">Sign out</Link>}
        command={<CommandSearch company={company} />}
      >
        {props.children}
      </OfficeFrame>
    </UndoProvider>
  );
}
