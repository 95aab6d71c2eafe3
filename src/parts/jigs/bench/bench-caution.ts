/** Ends the title of every jig for the bench. */
export const COMES_OFF = 'must come off before full welding: plastic burns and gives fumes';
