/** A section of the build book: what a stage tells of itself, in the order it is read. */
export interface BookSection {
  /** Safe as an HTML id. */
  readonly id: string;
  /** Heading of the section, plain text. */
  readonly title: string;
  /** HTML whose every text is escaped, without scripts. */
  readonly html: string;
}
