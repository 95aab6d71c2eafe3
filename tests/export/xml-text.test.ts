import { describe, expect, it } from 'vitest';
import { xmlText } from '../../src/export/xml-text.js';

describe('text in XML and HTML', () => {
  it('has its marks escaped', () => {
    expect(xmlText('a<b & "c" > \'d\'')).toBe('a&lt;b &amp; &quot;c&quot; &gt; &#39;d&#39;');
  });

  it('loses what no XML 1.0 document may hold, and keeps what lies beyond the first plane', () => {
    expect(xmlText('a\u0000\u001b\u007fb')).toBe('a   b');
    expect(xmlText('a\ufffeb\uffffc\ud800d')).toBe('a b c d');
    expect(xmlText('\u{1f527} \u00b5m')).toBe('\u{1f527} \u00b5m');
  });
});
