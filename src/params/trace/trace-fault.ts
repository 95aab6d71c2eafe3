/** A fault of a trace that another field than its file mends. */
export const traceFault = (field: string, message: string): RangeError & { readonly field: string } =>
  Object.assign(new RangeError(message), { field });

/** The field and words of whatever reading a trace threw. */
export function faultOfError(error: unknown, file: string): { readonly field: string; readonly message: string } {
  const message = error instanceof Error ? error.message : String(error);
  if (error instanceof RangeError && 'field' in error) return { field: String(error.field), message };
  return { field: 'file', message: `cannot use ${JSON.stringify(file)}: ${message}` };
}
