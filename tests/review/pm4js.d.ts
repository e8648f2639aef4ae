/** The parts of a general process-mining library that the tests use; the package ships no types. */
declare module 'pm4js/pm4js/objects/log/importer/xes/importer.js' {
  export interface EventLog {
    readonly traces: readonly { readonly events: readonly unknown[] }[];
  }
  const module: { readonly XesImporter: { apply(xml: string): EventLog } };
  export default module;
}
declare module 'pm4js/pm4js/objects/petri_net/importer/importer.js' {
  const module: { readonly PnmlImporter: { apply(xml: string): unknown } };
  export default module;
}
declare module 'pm4js/pm4js/algo/conformance/alignments/petri_net/algorithm.js' {
  const module: {
    readonly PetriNetAlignments: {
      apply(
        log: unknown,
        net: unknown,
        key: string,
        seconds: number,
      ): {
        readonly overallResult: readonly ({
          readonly cost: number;
          readonly fitness: number;
        } | null)[];
      };
    };
  };
  export default module;
}
declare module 'pm4js/init.js';
