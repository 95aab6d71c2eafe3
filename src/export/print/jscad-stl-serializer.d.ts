declare module '@jscad/stl-serializer' {
  const serializer: {
    readonly mimeType: string;
    serialize(options: { readonly binary: boolean }, ...objects: unknown[]): ArrayBuffer[];
  };
  export default serializer;
}

/** The writer of triangles alone: no rounding and no joining of points before it, which the serializer above does. */
declare module '@jscad/stl-serializer/CSGToStlb.js' {
  const writer: {
    serializeBinary(objects: readonly unknown[], options: object): ArrayBuffer[];
  };
  export default writer;
}
