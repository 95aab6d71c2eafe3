/** How far writing stands proud of a print, mm. */
export const RAISED = 0.6;

/** How deep engraved writing is, mm. */
export const ENGRAVED = 0.6;
