/** The counter behind dxf-writer's handles: one for the whole process, not one for each drawing. */
declare module 'dxf-writer/src/Handle.js' {
  const handle: { seed: number };
  export default handle;
}
