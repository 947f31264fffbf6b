import * as z from "zod";

/*
 * Every identifier is a lower-case UUID, branded so that one kind cannot stand where another is meant.
 * Two spellings of one id would be two ids, hence no upper case.
 */
const uuid = () => z.uuid().lowercase();

export const CompanyId = uuid().brand<"CompanyId">();
export type CompanyId = z.infer<typeof CompanyId>;

export const PersonId = uuid().brand<"PersonId">();
export type PersonId = z.infer<typeof PersonId>;

/** One installed copy of the tablet program; a person may have several, several persons may share one. */
export const InstallationId = uuid().brand<"InstallationId">();
export type InstallationId = z.infer<typeof InstallationId>;

export const CustomerId = uuid().brand<"CustomerId">();
export type CustomerId = z.infer<typeof CustomerId>;

export const SiteId = uuid().brand<"SiteId">();
export type SiteId = z.infer<typeof SiteId>;

export const EquipmentId = uuid().brand<"EquipmentId">();
export type EquipmentId = z.infer<typeof EquipmentId>;

export const CircuitId = uuid().brand<"CircuitId">();
export type CircuitId = z.infer<typeof CircuitId>;

export const WorkOrderId = uuid().brand<"WorkOrderId">();
export type WorkOrderId = z.infer<typeof WorkOrderId>;

export const VisitId = uuid().brand<"VisitId">();
export type VisitId = z.infer<typeof VisitId>;

/** The sealed-system work on one circuit; it owns one entry log. */
export const JobId = uuid().brand<"JobId">();
export type JobId = z.infer<typeof JobId>;

/** Made on the device, version 7, so that ids made in one place sort by time of making. */
export const EntryId = z.uuidv7().lowercase().brand<"EntryId">();
export type EntryId = z.infer<typeof EntryId>;

export const TraceId = z.uuidv7().lowercase().brand<"TraceId">();
export type TraceId = z.infer<typeof TraceId>;

/** A photo or a signature, kept apart from the log so that it can be erased. */
export const AttachmentId = z.uuidv7().lowercase().brand<"AttachmentId">();
export type AttachmentId = z.infer<typeof AttachmentId>;

/** A gauge, pump, recovery machine, scale or leak detector. */
export const ToolId = uuid().brand<"ToolId">();
export type ToolId = z.infer<typeof ToolId>;

export const CylinderId = uuid().brand<"CylinderId">();
export type CylinderId = z.infer<typeof CylinderId>;

/** Whether something from outside is an id at all; what it names is for the database to say. */
export function isUuid(value: unknown): value is string {
  return uuid().safeParse(value).success;
}
