export { toFhir } from './fhir.ts';
