export { toCsv } from './csv.ts';
export { toFhir } from './fhir.ts';
export { toPnml } from './pnml.ts';
export { toXes } from './xes.ts';
