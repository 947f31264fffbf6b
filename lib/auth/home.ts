import type { Role } from "./roles";

/** Where a member begins the day, by what they do there. */
export function homeOf(member: { slug: string; roles: readonly Role[] }): string {
  if (member.roles.includes("dispatcher")) return `/${member.slug}/day`;
  if (member.roles.includes("supervisor")) return `/${member.slug}/exceptions`;
  if (member.roles.includes("owner")) return `/${member.slug}/jobs`;
  return `/t/${member.slug}`;
}
