/** The package "dxf" has no types. */
declare module 'dxf' {
  export class Helper {
    constructor(text: string);
    readonly parsed: { header: object; entities: readonly object[] };
  }
}
