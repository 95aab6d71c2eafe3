/** What the command's exit tells a script. */
export const EXIT = {
  /** All checks hold. */
  ok: 0,
  /** The design fails a check; outputs are written and say so. */
  failedCheck: 1,
  /** The plan or the call is wrong; nothing is written. */
  wrongInput: 2,
  /** No route exists within the limits; nothing is written. */
  noRoute: 3,
  /** A fault of the program itself. */
  fault: 4,
} as const;

export type ExitCode = (typeof EXIT)[keyof typeof EXIT];

/** An end of a command that is the user's to mend: shown as text, never as a stack. */
export class CommandError extends Error {
  constructor(
    readonly code: ExitCode,
    message: string,
    /** What --json prints beside the message. */
    readonly details: Readonly<Record<string, unknown>> = {},
  ) {
    super(message);
  }
}
