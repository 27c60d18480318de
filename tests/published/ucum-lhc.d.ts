declare module '@lhncbc/ucum-lhc' {
  interface Conversion {
    readonly status: string;
    readonly toVal: number | null;
  }
  const ucum: {
    readonly UcumLhcUtils: {
      getInstance(): { convertUnitTo(from: string, value: number, to: string): Conversion };
    };
  };
  export default ucum;
}
