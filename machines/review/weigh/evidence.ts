import { toothClass } from '../../form/index.ts';
import { CAUSE_TABLE, CEMENT_SITES, FORM_FINDING, SPELLS, WEIGHING } from '../../trade/index.ts';
import type { Cause, CementSite, Spell } from '../../trade/index.ts';
import { dayOf } from '../days.ts';
import type { ReviewedUnit } from '../deviation.ts';
import type { Findings } from './findings.ts';

/** What of a reviewed unit bears on its loss. */
export type WeighFacts = Pick<
  ReviewedUnit,
  'tooth' | 'material' | 'kind' | 'formHolds' | 'seated' | 'findings'
>;

/** What may be found, with the chance of each answer under a cause. */
export interface Question {
  readonly id: 'cement' | 'spell' | 'form';
  readonly name: string;
  /** The answers and their chances; they sum to 1. */
  readonly chances: (
    cause: Cause,
  ) => readonly { readonly answer: string; readonly chance: number }[];
}

/** One thing found, and its chance under each cause. */
export interface Evidence {
  readonly id: Question['id'];
  /** In words, with where it is known from. */
  readonly what: string;
  readonly chance: (cause: Cause) => number;
}

export const SITE_WORDS: Readonly<Record<CementSite, string>> = {
  'on-tooth': 'cement on the tooth',
  'in-crown': 'cement in the restoration',
  mixed: 'cement on both, or split',
  'none-or-soft': 'no cement, or soft or washed out',
  'core-in-crown': 'core or tooth inside the restoration',
};
export const SPELL_WORDS: Readonly<Record<Spell, string>> = {
  'under-1-month': 'under 1 month',
  '1-to-12-months': '1 to 12 months',
  '1-to-5-years': '1 to 5 years',
  'over-5-years': 'over 5 years',
};

const siteChance = (site: CementSite) => (cause: Cause) => CAUSE_TABLE[cause].site[site].value;

/** The spell that a number of days falls in. */
export function spellOf(days: number): Spell {
  const { month, year } = WEIGHING;
  if (days < month.value) return 'under-1-month';
  if (days < year.value) return '1-to-12-months';
  return days <= 5 * year.value ? '1-to-5-years' : 'over-5-years';
}

/** Days in place; null when nobody knows, below 0 when it was lost before the record has it seated. */
export function daysInPlace(findings: Findings, facts: WeighFacts | null): number | null {
  if (findings.days !== undefined) return findings.days;
  const from = dayOf(findings.seated ?? facts?.seated ?? '');
  const to = dayOf(findings.lost ?? '');
  return from === null || to === null ? null : to - from;
}

/** Chance that the form is missing: the table's where it is the cause, the preps' own elsewhere. */
function lacksChance(tooth: string) {
  const kind = toothClass(tooth);
  const present = kind === null ? null : FORM_FINDING.present[kind].value;
  return (cause: Cause): number => {
    if (cause === 'form') return FORM_FINDING.lacksWhereCause.value;
    return present === null ? 0.5 : 1 - present;
  };
}

/** The form's data are of preps for crowns. */
const hasCrownForm = (facts: WeighFacts | null): boolean =>
  facts === null || facts.kind === 'crown' || facts.kind === 'bridge';

function siteEvidence({ cement, coreInside }: Findings): Evidence | null {
  if (coreInside === true) {
    return { id: 'cement', what: SITE_WORDS['core-in-crown'], chance: siteChance('core-in-crown') };
  }
  if (cement !== 'not-seen') {
    return { id: 'cement', what: SITE_WORDS[cement], chance: siteChance(cement) };
  }
  if (coreInside === null) return null;
  const core = siteChance('core-in-crown');
  return {
    id: 'cement',
    what: 'no core inside, cement not seen',
    chance: (cause) => 1 - core(cause),
  };
}

function spellEvidence(days: number | null): Evidence | null {
  if (days === null || days < 0) return null;
  const spell = spellOf(days);
  return {
    id: 'spell',
    what: `in place ${days} ${days === 1 ? 'day' : 'days'}: ${SPELL_WORDS[spell]}`,
    chance: (cause) => CAUSE_TABLE[cause].spell[spell].value,
  };
}

function formEvidence(findings: Findings, facts: WeighFacts | null): Evidence | null {
  const told = findings.form !== 'not-known';
  if (!told && (facts === null || !hasCrownForm(facts))) return null;
  const holds = told ? findings.form === 'holds' : facts?.formHolds === true;
  const lacks = lacksChance(findings.tooth);
  return {
    id: 'form',
    what: `${holds ? 'has' : 'lacks'} resistance form${told ? '' : ' (by the plan)'}`,
    chance: (cause) => (holds ? 1 - lacks(cause) : lacks(cause)),
  };
}

/** What was found, each with its chance under every cause. */
export function evidenceOf(findings: Findings, facts: WeighFacts | null): readonly Evidence[] {
  const days = daysInPlace(findings, facts);
  return [siteEvidence(findings), spellEvidence(days), formEvidence(findings, facts)].filter(
    (one) => one !== null,
  );
}

/** What could still be found out. */
export function openQuestions(
  findings: Findings,
  facts: WeighFacts | null,
  known: readonly Evidence[],
): readonly Question[] {
  const closed = new Set(known.map(({ id }) => id));
  // A core that stayed where it was leaves the cement still to be looked at.
  if (findings.cement === 'not-seen' && findings.coreInside === false) closed.delete('cement');
  const sites = CEMENT_SITES.filter(
    (site) => site !== 'core-in-crown' || findings.coreInside === null,
  );
  const lacks = lacksChance(findings.tooth);
  const questions: readonly Question[] = [
    {
      id: 'cement',
      name: 'where the cement stayed',
      chances: (cause) => {
        const sum = sites.reduce((so, site) => so + siteChance(site)(cause), 0);
        return sites.map((site) => ({
          answer: SITE_WORDS[site],
          chance: siteChance(site)(cause) / sum,
        }));
      },
    },
    {
      id: 'spell',
      name: 'how long it was in place',
      chances: (cause) =>
        SPELLS.map((spell) => ({
          answer: SPELL_WORDS[spell],
          chance: CAUSE_TABLE[cause].spell[spell].value,
        })),
    },
    {
      id: 'form',
      name: 'whether the prep has resistance form',
      chances: (cause) => [
        { answer: 'lacks resistance form', chance: lacks(cause) },
        { answer: 'has resistance form', chance: 1 - lacks(cause) },
      ],
    },
  ];
  return questions.filter(({ id }) => !closed.has(id) && (id !== 'form' || hasCrownForm(facts)));
}
