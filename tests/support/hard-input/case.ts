/** A hard input: what a stranger's file, folder or word may be, and how the program must answer. */
export interface HardCase {
  readonly what: string;
  /** Makes the files in an empty folder that is the working one, and gives the arguments of the call. */
  readonly prepare: (folder: string) => readonly string[];
  readonly exit: number;
  /** What the answer must say. */
  readonly words: RegExp;
}
