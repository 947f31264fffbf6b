const WORDS = {
  "not-an-archive": "This file is not a Dryhold backup, or its beginning is damaged.",
  "cut-short": "The backup ends too early: it is not whole.",
  damaged: "The backup is damaged: its content does not have the digest written beside it.",
  "other-version": "The backup was made by another version of Dryhold; restore it with that version, then update.",
  "not-empty": "The database is not empty. Restore into a new one, for example with DRYHOLD_DATA naming a new folder.",
  "keys-in-a-circle": "Tables point at each other in a circle; they cannot be restored one after the other.",
} as const;

export type ArchiveFailureCode = keyof typeof WORDS;

/** A backup cannot be made or restored; nothing was changed. */
export class ArchiveFailure extends Error {
  override readonly name = "ArchiveFailure";

  constructor(
    readonly code: ArchiveFailureCode,
    detail?: string,
  ) {
    super(detail ? `${WORDS[code]} (${detail})` : WORDS[code]);
  }
}
