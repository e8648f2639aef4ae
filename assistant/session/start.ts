import type { CaseFile, Header, Plan } from '../../machines/contract/index.ts';
import { makeHeader } from '../../machines/record/index.ts';
import { SOFTWARE } from './software.ts';

/** The header of a case that opens at `wall` (ISO 8601 in UTC). */
export function headerOf(caseFile: CaseFile, plan: Plan, wall: string): Header {
  return makeHeader({
    invented: caseFile.invented,
    software: SOFTWARE,
    opened: wall,
    case: caseFile,
    plan,
  });
}
