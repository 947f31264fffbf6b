export const roles = ["dispatcher", "technician", "supervisor", "owner"] as const;
export type Role = (typeof roles)[number];

export function isRole(value: unknown): value is Role {
  return roles.includes(value as Role);
}

/** Everyone who works in the office. */
export const office: readonly Role[] = ["dispatcher", "supervisor", "owner"];
