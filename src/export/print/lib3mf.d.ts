/** What is used of the 3MF Consortium's library; it comes without types. Every object of it must be deleted by hand. */
declare module '@3mfconsortium/lib3mf' {
  interface Held {
    delete(): void;
  }
  interface Position extends Held {
    set_Coordinates0(v: number): void;
    set_Coordinates1(v: number): void;
    set_Coordinates2(v: number): void;
  }
  interface Triangle extends Held {
    set_Indices0(i: number): void;
    set_Indices1(i: number): void;
    set_Indices2(i: number): void;
  }
  /** Fields_row_column: rows 0 to 2 are where x, y and z go, row 3 the shift. */
  interface Transform extends Held {
    set_Fields_0_0(v: number): void;
    set_Fields_0_1(v: number): void;
    set_Fields_1_0(v: number): void;
    set_Fields_1_1(v: number): void;
    set_Fields_3_0(v: number): void;
    set_Fields_3_1(v: number): void;
  }
  interface MeshObject extends Held {
    SetName(name: string): void;
    SetPartNumber(number: string): void;
    SetUUID(uuid: string): void;
    AddVertex(p: Position): number;
    AddTriangle(t: Triangle): number;
  }
  interface BuildItem extends Held {
    SetUUID(uuid: string): void;
    SetPartNumber(number: string): void;
  }
  interface MetaDataGroup extends Held {
    AddMetaData(namespace: string, name: string, value: string, type: string, mustPreserve: boolean): Held;
  }
  interface Writer extends Held {
    WriteToFile(path: string): void;
  }
  interface Model extends Held {
    SetUnit(unit: unknown): void;
    SetBuildUUID(uuid: string): void;
    AddMeshObject(): MeshObject;
    AddBuildItem(object: MeshObject, transform: Transform): BuildItem;
    GetMetaDataGroup(): MetaDataGroup;
    QueryWriter(format: '3mf'): Writer;
  }
  interface Wrapper extends Held {
    CreateModel(): Model;
    GetIdentityTransform(): Transform;
  }
  export interface Kernel {
    readonly CWrapper: new () => Wrapper;
    readonly sPosition: new () => Position;
    readonly sTriangle: new () => Triangle;
    readonly eModelUnit: { readonly MilliMeter: unknown };
    /** Files in memory. */
    readonly FS: { readFile(path: string): Uint8Array; unlink(path: string): void };
  }
  const load: () => Promise<Kernel>;
  export default load;
}
