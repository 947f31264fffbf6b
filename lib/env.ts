import * as z from "zod";

/** What the serving process is told from outside. Secrets of the migrator are not among it. */
const servingShape = z.object({
  DATABASE_URL: z.url({ protocol: /^postgres(ql)?$/ }),
  /** The same database past a pooler in transaction mode, which keeps no connection to listen on. */
  LISTEN_URL: z.url({ protocol: /^postgres(ql)?$/ }).optional(),
  NEXTAUTH_SECRET: z.string().min(32),
  NEXTAUTH_URL: z.url({ protocol: /^https?$/ }),
  NODE_ENV: z.enum(["development", "test", "production"]).default("development"),
});

/** A road service's table, as its address stands before the coordinates: no question, no name and password in it. */
const roadShape = z.object({
  ROAD_TABLE_URL: z
    .url({ protocol: /^https?$/ })
    .max(300)
    .refine((url) => !/[?#@]/.test(url), { error: "the address up to the coordinates, nothing after it" })
    .transform((url) => url.replace(/\/+$/, ""))
    .optional(),
});

/** How customers are written to; without SMTP_URL they are not, and the outbox keeps what would have been sent. */
const mailShape = z
  .object({ SMTP_URL: z.url({ protocol: /^smtps?$/ }).optional(), MAIL_FROM: z.email().optional() })
  .refine((given) => (given.SMTP_URL === undefined) === (given.MAIL_FROM === undefined), {
    error: "set SMTP_URL and MAIL_FROM both, or neither",
  });

/** Whether this process does jobs of the queue: a server does, a build does not, nor one told so. */
const jobsShape = z.object({
  DRYHOLD_JOBS: z.enum(["0", "1"]).default("1"),
  NEXT_PHASE: z.string().optional(),
});

/** What the commands at the terminal (start, migrate, seed, backup, restore) are told. */
const commandShape = z
  .object({
    DATABASE_URL: servingShape.shape.DATABASE_URL.optional(),
    MIGRATOR_URL: servingShape.shape.DATABASE_URL.optional(),
    NEXTAUTH_SECRET: servingShape.shape.NEXTAUTH_SECRET.optional(),
    NEXTAUTH_URL: servingShape.shape.NEXTAUTH_URL.optional(),
    DRYHOLD_DEMO: z.enum(["0", "1"]).optional(),
    DRYHOLD_DATA: z.string().min(1).optional(),
    HOST: z.string().min(1).default("127.0.0.1"),
    PORT: z.coerce.number().int().min(1).max(65_535).optional(),
  })
  .refine((given) => (given.DATABASE_URL === undefined) === (given.MIGRATOR_URL === undefined), {
    error: "set DATABASE_URL and MIGRATOR_URL both, or neither to use the embedded database",
  });

export type ServingEnv = z.infer<typeof servingShape>;
export type CommandEnv = z.infer<typeof commandShape>;

let serving: ServingEnv | undefined;

/** The checked environment of the serving process; read on first use, so that a build needs none of it. */
export function servingEnv(): ServingEnv {
  serving ??= checked(servingShape);
  return serving;
}

/** The database the application's role works on; all that a command using the application's queries needs. */
export function databaseUrl(): string {
  return checked(servingShape.pick({ DATABASE_URL: true })).DATABASE_URL;
}

/** The mail server and the address that is written from; null where there is none. */
export function mailSettings(): { readonly url: string; readonly from: string } | null {
  const { SMTP_URL: url, MAIL_FROM: from } = checked(mailShape);
  return url !== undefined && from !== undefined ? { url, from } : null;
}

export function jobsWanted(): boolean {
  const { DRYHOLD_JOBS, NEXT_PHASE } = checked(jobsShape);
  return DRYHOLD_JOBS === "1" && NEXT_PHASE !== "phase-production-build";
}

/** Where travel times are asked for; none: they are estimated from the distance. */
export function roadTableUrl(): string | undefined {
  return checked(roadShape).ROAD_TABLE_URL;
}

/** Where to listen for changes: a connection of its own that a pooler in transaction mode cannot give. */
export function listenUrl(): string {
  const given = checked(servingShape.pick({ DATABASE_URL: true, LISTEN_URL: true }));
  return given.LISTEN_URL ?? given.DATABASE_URL;
}

export function commandEnv(): CommandEnv {
  return checked(commandShape);
}

function checked<T>(shape: z.ZodType<T>): T {
  const given = Object.fromEntries(Object.entries(process.env).filter(([, value]) => value !== ""));
  const parsed = shape.safeParse(given);
  if (parsed.success) return parsed.data;
  throw new Error(`The environment is not complete (npm start sets it):\n${z.prettifyError(parsed.error)}`);
}
