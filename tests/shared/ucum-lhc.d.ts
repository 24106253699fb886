/** What the tests use of a library that brings no types. */
declare module '@lhncbc/ucum-lhc' {
  export const UcumLhcUtils: {
    getInstance(): {
      convertUnitTo(from: string, value: number, to: string): { readonly toVal: number | null };
    };
  };
}
