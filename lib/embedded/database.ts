import { type DatabaseUrls, prepareDatabase } from "./roles";
import { type EmbeddedServer, startEmbedded } from "./server";

/** The database of this installation, wherever it runs. */
export interface OpenDatabase extends DatabaseUrls {
  /** The embedded server; `null` where URLs name another one. */
  readonly embedded: EmbeddedServer | null;
  release(): Promise<void>;
}

/** The database the environment names, else the embedded one, started or joined; release it when done. */
export async function openDatabase(given: {
  readonly projectFolder: string;
  readonly DATABASE_URL?: string | undefined;
  readonly MIGRATOR_URL?: string | undefined;
  readonly DRYHOLD_DATA?: string | undefined;
}): Promise<OpenDatabase> {
  const { DATABASE_URL: databaseUrl, MIGRATOR_URL: migratorUrl, DRYHOLD_DATA: dataFolder } = given;
  if (databaseUrl && migratorUrl) return { databaseUrl, migratorUrl, embedded: null, release: async () => {} };
  const embedded = await startEmbedded({ projectFolder: given.projectFolder, dataFolder });
  try {
    return { ...(await prepareDatabase(embedded)), embedded, release: embedded.release };
  } catch (error) {
    await embedded.release();
    throw error;
  }
}
