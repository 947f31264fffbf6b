import type { Role } from "./roles";

/** Where a member begins the day, by what they do there. */
export function homeOf(member: { slug: string; roles: readonly Role[] }): string {
  if (member.roles.includes("dispatcher")) return `/${member.slug}/board`;
  if (member.roles.includes("supervisor")) return `/${member.slug}/exceptions`;
  if (member.roles.includes("owner")) return `/${member.slug}/quality/proof`;
  return `/t/${member.slug}`;
}
