import "server-only";
import { isRole, type Role } from "@/lib/auth/roles";
import type { PaperFacts } from "@/lib/certificate";
import { CompanyId, JobId, PersonId, ToolId } from "@/lib/ids";
import type { HeldJob } from "@/lib/jobs/job";
import { prismaClient } from "./client";
import type { TenantTx } from "./tenant";

// What is needed before a company is known. Each call is one narrow function of the schema `gate`; see pre-tenant-list.ts.

export interface Membership {
  companyId: CompanyId;
  slug: string;
  companyName: string;
  timeZone: string;
  ruleSet: "us" | "eu";
  memberName: string;
  roles: readonly Role[];
}

/** How many wrong guesses are free before the wait begins, and how soon one of them is forgotten. */
interface GuessPace {
  free: number;
  forgetOneS: number;
}
/** For one account or one secret: twelve, the most that are kept, are forgotten in a day. */
export const ACCOUNT_PACE: GuessPace = { free: 3, forgetOneS: 2 * 3600 };
/** For an address, behind which a whole office may sit: their typing errors must not lock each other out. */
export const ADDRESS_PACE: GuessPace = { free: 60, forgetOneS: 30 };

/** Seconds to wait before another guess for this key, 0 when this one may be tried (it then counts until forgiven). */
export async function takeGuess(key: string, { free, forgetOneS }: GuessPace): Promise<number> {
  const [row] = await prismaClient().$queryRaw<{ wait_s: number }[]>`
    select gate.take_guess(${key}, ${free}::integer, ${forgetOneS}::integer) as wait_s`;
  return row!.wait_s;
}

/** A right password: the account starts afresh. */
export async function forgiveGuesses(key: string): Promise<void> {
  await prismaClient().$executeRaw`select gate.forgive_guesses(${key})`;
}

/** Takes back one guess of this key, the one that was right; the wrong ones beside it stay. */
export async function returnGuess(key: string): Promise<void> {
  await prismaClient().$executeRaw`select gate.return_guess(${key})`;
}

export async function findSignIn(
  email: string,
): Promise<{ personId: PersonId; name: string; passwordHash: string } | null> {
  const [row] = await prismaClient().$queryRaw<{ person_id: string; name: string; password_hash: string }[]>`
    select * from gate.find_sign_in(${email})`;
  return row ? { personId: PersonId.parse(row.person_id), name: row.name, passwordHash: row.password_hash } : null;
}

export async function findPerson(
  person: PersonId,
): Promise<{ email: string; name: string; passwordHash: string } | null> {
  const [row] = await prismaClient().$queryRaw<{ email: string; name: string; password_hash: string }[]>`
    select * from gate.find_person(${person}::uuid)`;
  return row ? { email: row.email, name: row.name, passwordHash: row.password_hash } : null;
}

export async function setPassword(person: PersonId, passwordHash: string): Promise<void> {
  await prismaClient().$executeRaw`select gate.set_password(${person}::uuid, ${passwordHash})`;
}

export async function openSession(id: string, person: PersonId, device: string, ttlS: number): Promise<void> {
  await prismaClient().$executeRaw`select gate.open_session(${id}::uuid, ${person}::uuid, ${device}, ${ttlS}::integer)`;
}

/** The person behind a session that has neither ended nor expired. */
export async function checkSession(id: string): Promise<{ personId: PersonId; name: string; email: string } | null> {
  const [row] = await prismaClient().$queryRaw<{ person_id: string; name: string; email: string }[]>`
    select * from gate.check_session(${id}::uuid)`;
  return row ? { personId: PersonId.parse(row.person_id), name: row.name, email: row.email } : null;
}

export interface OpenSession {
  id: string;
  device: string;
  opened_at: Date;
  last_seen_at: Date;
}

export function listSessions(person: PersonId): Promise<OpenSession[]> {
  return prismaClient().$queryRaw<OpenSession[]>`select * from gate.list_sessions(${person}::uuid)`;
}

export async function endSession(id: string, person: PersonId): Promise<void> {
  await prismaClient().$executeRaw`select gate.end_session(${id}::uuid, ${person}::uuid)`;
}

export async function endAllSessions(person: PersonId): Promise<number> {
  const [row] = await prismaClient().$queryRaw<
    { ended: number }[]
  >`select gate.end_all_sessions(${person}::uuid) as ended`;
  return row!.ended;
}

interface MembershipRow {
  tenant_id: string;
  slug: string;
  company_name: string;
  time_zone: string;
  rule_set: string;
  member_name: string;
  roles: string[];
}

export async function membershipsOf(person: PersonId): Promise<Membership[]> {
  const rows = await prismaClient().$queryRaw<MembershipRow[]>`select * from gate.memberships_of(${person}::uuid)`;
  return rows.map(membershipOf);
}

/** Companies the person belonged to and no longer does; without any role there. */
export async function formerMembershipsOf(person: PersonId): Promise<Membership[]> {
  const rows = await prismaClient().$queryRaw<
    MembershipRow[]
  >`select * from gate.former_memberships_of(${person}::uuid)`;
  return rows.map(membershipOf);
}

function membershipOf(row: MembershipRow): Membership {
  return {
    companyId: CompanyId.parse(row.tenant_id),
    slug: row.slug,
    companyName: row.company_name,
    timeZone: row.time_zone,
    ruleSet: row.rule_set === "eu" ? "eu" : "us",
    memberName: row.member_name,
    roles: row.roles.filter(isRole),
  };
}

export interface InvitationOffer {
  email: string;
  name: string;
  roles: string[];
  company_name: string;
  slug: string;
  known_person: boolean;
}

/** An invitation that can still be taken, by the hash of its token. */
export async function findInvitation(tokenHash: Uint8Array): Promise<InvitationOffer | null> {
  const [row] = await prismaClient().$queryRaw<
    InvitationOffer[]
  >`select * from gate.find_invitation(${Buffer.from(tokenHash)})`;
  return row ?? null;
}

/** Takes an invitation once; the company's slug, or null when it cannot be taken (any more, or by this person). */
export async function acceptInvitation(
  tokenHash: Uint8Array,
  taker: { person: PersonId; isNew: true; name: string; passwordHash: string } | { person: PersonId; isNew: false },
): Promise<string | null> {
  const name = taker.isNew ? taker.name : null;
  const passwordHash = taker.isNew ? taker.passwordHash : null;
  const [row] = await prismaClient().$queryRaw<{ slug: string | null }[]>`
    select gate.accept_invitation(${Buffer.from(tokenHash)}, ${taker.person}::uuid, ${taker.isNew}, ${name}, ${passwordHash}) as slug`;
  return row!.slug;
}

export interface OpenInvitation {
  id: string;
  email: string;
  name: string;
  roles: string[];
  created_at: Date;
  expires_at: Date;
}

export function listInvitations(tx: TenantTx): Promise<OpenInvitation[]> {
  return tx.$queryRaw<OpenInvitation[]>`select * from gate.list_invitations()`;
}

export async function invite(
  tx: TenantTx,
  invitation: {
    id: string;
    tokenHash: Uint8Array;
    email: string;
    name: string;
    roles: readonly Role[];
    by: PersonId;
    ttlS: number;
  },
): Promise<void> {
  const { id, tokenHash, email, name, roles, by, ttlS } = invitation;
  await tx.$executeRaw`
    select gate.invite(${id}::uuid, ${Buffer.from(tokenHash)}, ${email}, ${name}, ${[...roles]}::text[], ${by}::uuid, ${ttlS}::integer)`;
}

export async function withdrawInvitation(tx: TenantTx, id: string): Promise<void> {
  await tx.$executeRaw`select gate.withdraw_invitation(${id}::uuid)`;
}

export interface FoundCertificateLink {
  companyId: CompanyId;
  companyName: string;
  jobId: JobId;
  paper: PaperFacts;
  revokedAt: Date | null;
}

/** The paper a link belongs to, by the hash of its token; also of a link taken back. */
export async function findCertificateLink(tokenHash: Uint8Array): Promise<FoundCertificateLink | null> {
  const [row] = await prismaClient().$queryRaw<
    {
      company_id: string;
      company_name: string;
      job_id: string;
      digest: string;
      strength: PaperFacts["strength"];
      verdicts: PaperFacts["verdicts"];
      revoked_at: Date | null;
    }[]
  >`select * from gate.find_certificate_link(${Buffer.from(tokenHash)})`;
  if (!row) return null;
  const { digest, strength, verdicts } = row;
  return {
    companyId: CompanyId.parse(row.company_id),
    companyName: row.company_name,
    jobId: JobId.parse(row.job_id),
    paper: { digest, strength, verdicts },
    revokedAt: row.revoked_at,
  };
}

/** Whose instrument a secret belongs to, by its hash; null for an unknown one and for one taken back. */
export async function findInstrument(tokenHash: Uint8Array): Promise<{ company: CompanyId; tool: ToolId } | null> {
  const [row] = await prismaClient().$queryRaw<{ company_id: string; tool_id: string }[]>`
    select * from gate.find_instrument_token(${Buffer.from(tokenHash)})`;
  return row ? { company: CompanyId.parse(row.company_id), tool: ToolId.parse(row.tool_id) } : null;
}

/** Every company is given each of these jobs once a day, from now on. */
export async function putDailyJobs(kinds: readonly string[]): Promise<void> {
  await prismaClient().$executeRaw`select gate.put_daily_jobs(${[...kinds]}::text[])`;
}

/** The job due longest among these kinds, held by this process for `seconds`; null when none is due. */
export async function takeJob(kinds: readonly string[], seconds: number): Promise<HeldJob | null> {
  const [row] = await prismaClient().$queryRaw<
    {
      id: string;
      company_id: string;
      kind: string;
      key: string;
      is_daily: boolean;
      attempts: number;
      hold: string;
    }[]
  >`select * from gate.take_job(${[...kinds]}::text[], ${seconds}::integer)`;
  if (!row) return null;
  const { company_id: company, is_daily: isDaily, ...rest } = row;
  return { ...rest, isDaily, company: CompanyId.parse(company) };
}

/** Ends a job that is still held by this process; a daily one is due again the next morning. */
export async function endJob({ id, hold }: HeldJob): Promise<void> {
  await prismaClient().$executeRaw`select gate.end_job(${id}::uuid, ${hold}::uuid)`;
}

/** Puts a held job off by `waitS`, or gives it up where that is null. */
export async function putOffJob({ id, hold }: HeldJob, waitS: number | null): Promise<void> {
  const failed = waitS === null;
  await prismaClient().$executeRaw`
    select gate.put_off_job(${id}::uuid, ${hold}::uuid, ${waitS ?? 0}::integer, ${failed}::boolean)`;
}

export async function forgetJobs(): Promise<void> {
  await prismaClient().$executeRaw`select gate.forget_jobs()`;
}

export interface FoundStatusLink {
  companyId: CompanyId;
  companyName: string;
  workOrderId: string;
  revokedAt: Date | null;
}

/** The work order a link belongs to, by the hash of its token; also of a link taken back. */
export async function findStatusLink(tokenHash: Uint8Array): Promise<FoundStatusLink | null> {
  const [row] = await prismaClient().$queryRaw<
    { company_id: string; company_name: string; work_order_id: string; revoked_at: Date | null }[]
  >`select * from gate.find_status_link(${Buffer.from(tokenHash)})`;
  if (!row) return null;
  return {
    companyId: CompanyId.parse(row.company_id),
    companyName: row.company_name,
    workOrderId: row.work_order_id,
    revokedAt: row.revoked_at,
  };
}

export interface FoundCalendarFeed {
  companyId: CompanyId;
  slug: string;
  companyName: string;
  personId: PersonId;
}

/** Whose calendar an address opens, by the hash of its token; null also when it was taken back or the person left. */
export async function findCalendarFeed(tokenHash: Uint8Array): Promise<FoundCalendarFeed | null> {
  const [row] = await prismaClient().$queryRaw<
    { company_id: string; slug: string; company_name: string; person_id: string }[]
  >`select * from gate.find_calendar_feed(${Buffer.from(tokenHash)})`;
  if (!row) return null;
  return {
    companyId: CompanyId.parse(row.company_id),
    slug: row.slug,
    companyName: row.company_name,
    personId: PersonId.parse(row.person_id),
  };
}
