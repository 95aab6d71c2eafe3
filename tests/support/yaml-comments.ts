import { Lexer } from 'yaml';

/** Every comment of a YAML text, in order, by the library's own lexer. */
export const commentsOf = (text: string): string[] =>
  [...new Lexer().lex(text)].filter((token) => token.startsWith('#'));
