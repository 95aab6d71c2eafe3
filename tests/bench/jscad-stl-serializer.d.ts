declare module '@jscad/stl-serializer' {
  const serializer: {
    readonly mimeType: string;
    serialize(options: { readonly binary: boolean }, ...objects: unknown[]): ArrayBuffer[];
  };
  export default serializer;
}
