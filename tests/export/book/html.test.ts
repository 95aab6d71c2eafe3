import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { html, lines, safe } from '../../../src/export/book/html.js';

describe('markup', () => {
  it('escapes every text it is given and keeps markup', () => {
    const name = `<script>alert("1")</script> & 'co'`;
    expect(html`<p title="${name}">${name}${safe('<b>bold</b>')}</p>`.html).toBe(
      '<p title="&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; &amp; &#39;co&#39;">&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt; &amp; &#39;co&#39;<b>bold</b></p>',
    );
  });

  it('joins lists however deep and leaves null out', () => {
    expect(html`<ul>${[html`<li>1</li>`, [null, html`<li>${2}</li>`]]}</ul>`.html).toBe(
      '<ul><li>1</li><li>2</li></ul>',
    );
  });

  it('lets no text open a tag or end an attribute', () => {
    fc.assert(
      fc.property(fc.string(), (text) => {
        expect(html`${text}`.html).not.toMatch(/[<>"']/);
        expect(lines(text).html).not.toMatch(/[<>"']/);
      }),
    );
  });

  it('keeps the lines of a text', () => {
    expect(lines('a: 1\r\nb: <2>\n').html).toBe('a: 1\nb: &lt;2&gt;\n');
  });
});
