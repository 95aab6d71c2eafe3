const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text without what XML cannot hold: control characters, lone surrogates and the two non-characters become spaces. */
export const plainText = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be replaced
  text.replace(/[\u0000-\u001f\u007f\ufffe\uffff]|\p{Surrogate}/gu, ' ');

/** Plain text made safe for XML and HTML content and attributes. */
export const xmlText = (text: string): string => plainText(text).replace(/[&<>"']/g, (c) => ENTITIES[c]!);
