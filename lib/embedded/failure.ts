/** The embedded database cannot run here; the message says what to do and is meant for the person at the terminal. */
export class EmbeddedFailure extends Error {
  override readonly name = "EmbeddedFailure";
}
