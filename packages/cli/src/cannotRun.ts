/** The command could not do its work; the message is all that the user sees, and the exit code is 1. */
export class CannotRun extends Error {
  override name = 'CannotRun';
}

/** What a command found: its text for standard output, and whether it found errors or failures. */
export interface Finished {
  readonly text: string;
  /** Errors or failures were found: exit code 2. */
  readonly failed?: boolean;
  /** The exit code where it is another one. */
  readonly code?: number;
  /** Said on standard error beside the text. */
  readonly aside?: string;
}
