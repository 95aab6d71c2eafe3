const ENTITIES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  "'": '&#39;',
};

/** Text made safe for XML and HTML content and attributes; control characters, which XML cannot hold, become spaces. */
export const xmlText = (text: string): string =>
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are the characters to be replaced
  text.replace(/[&<>"']/g, (c) => ENTITIES[c]!).replace(/[\u0000-\u001f\u007f]/g, ' ');
