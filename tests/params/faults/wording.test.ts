import { describe, expect, test } from 'vitest';
import { printable } from '../../../src/params/faults/wording.js';

describe('text that is printed', () => {
  test('shows what cannot be seen as escapes, and keeps the rest', () => {
    expect(printable('a\u0007b\u2028c')).toBe('a\\u0007b\\u2028c');
    expect(printable('42,4 mm \u00d8 \u{1f527}')).toBe('42,4 mm \u00d8 \u{1f527}');
  });

  test('tells characters beyond U+FFFF apart', () => {
    // two tags (format characters) of the same first half
    expect(printable('\u{e0041}')).toBe('\\udb40\\udc41');
    expect(printable('\u{e0042}')).not.toBe(printable('\u{e0041}'));
  });
});
