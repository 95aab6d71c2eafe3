/** Types of outputs that a browser shows by itself; all else is saved. */
const SHOWN: Readonly<Record<string, string>> = {
  html: 'text/html; charset=utf-8',
  pdf: 'application/pdf',
  svg: 'image/svg+xml',
  csv: 'text/plain; charset=utf-8',
  json: 'application/json',
};

/** What is sent with an output. A book or picture runs in an origin of its own, where it cannot reach the server. */
export function outputHeaders(path: string): Record<string, string> {
  const name = path.slice(path.lastIndexOf('/') + 1).replace(/[^\w.-]/g, '_');
  const type = SHOWN[name.slice(name.lastIndexOf('.') + 1)];
  return {
    'content-type': type ?? 'application/octet-stream',
    'content-disposition': `${type ? 'inline' : 'attachment'}; filename="${name}"`,
    'content-security-policy':
      "sandbox allow-scripts allow-modals; default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data: blob:; font-src data:; frame-ancestors 'none'",
  };
}
