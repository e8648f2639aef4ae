import type { Entry, Header } from '../contract/index.ts';
import { traceOf } from '../review/index.ts';
import type { Activity } from '../review/index.ts';
import { instantAfter } from './instant.ts';
import { type Element, xmlText } from './xml.ts';

const attribute =
  (name: string) =>
  (key: string, value: string): Element => ({ name, attributes: { key, value } });
const text = attribute('string');
const date = attribute('date');
const float = attribute('float');
const int = attribute('int');
const flag = attribute('boolean');

const extension = (name: string, prefix: string): Element => ({
  name: 'extension',
  attributes: { name, prefix, uri: `http://www.xes-standard.org/${prefix}.xesext` },
});

const unless = (value: number | string | null | undefined, make: (given: string) => Element) =>
  value === null || value === undefined ? [] : [make(`${value}`)];

/** Keys beside the standard extensions' have no prefix: they belong to none of them. */
function eventOf(one: Activity, opened: string, title: string | null): Element {
  const { window } = one;
  return {
    name: 'event',
    inside: [
      text('concept:name', one.label),
      text('lifecycle:transition', 'complete'),
      date('time:timestamp', instantAfter(opened, one.at)),
      date('start_timestamp', instantAfter(opened, one.from)),
      text('org:role', one.who),
      ...unless(title, (value) => text('title', value)),
      ...unless(one.tooth, (value) => text('tooth', value)),
      int('entry', `${one.entry}`),
      ...unless(one.begun, (value) => int('entry_begun', value)),
      text('via', one.via),
      date('wall', one.wall),
      ...unless(one.soiled?.surface, (value) => text('surface', value)),
      ...unless(one.soiled?.contaminant, (value) => text('contaminant', value)),
      ...unless(one.servedS, (value) => float('actual_s', value)),
      ...unless(window?.minS, (value) => float('planned_min_s', value)),
      ...unless(window?.targetS, (value) => float('planned_s', value)),
      ...unless(window?.maxS, (value) => float('planned_max_s', value)),
    ],
  };
}

/**
 * A record as an IEEE 1849 XES log of one trace. An event is an activity that took effect, named as
 * the plan's net names it; refusals, questions and what was taken back are none. Times are case
 * time from the opening on, which a clock set back does not disorder; `wall` is the clock. Custom attributes
 * carry the entry numbers, the seconds served and the plan's window.
 */
export function toXes(header: Header, entries: readonly Entry[]): string {
  const { case: caseFile, invented, plan, software, opened } = header;
  const titles = new Map(
    plan.units.flatMap(({ steps, spare }) =>
      [...steps, ...spare].map(({ id, title }) => [id, title] as const),
    ),
  );
  const { activities, closed } = traceOf(header, entries);
  return xmlText({
    name: 'log',
    attributes: {
      'xes.version': '1849-2016',
      'xes.features': '',
      xmlns: 'http://www.xes-standard.org/',
    },
    inside: [
      extension('Concept', 'concept'),
      extension('Lifecycle', 'lifecycle'),
      extension('Organizational', 'org'),
      extension('Time', 'time'),
      {
        name: 'global',
        attributes: { scope: 'trace' },
        inside: [text('concept:name', 'unknown')],
      },
      {
        name: 'global',
        attributes: { scope: 'event' },
        inside: [
          text('concept:name', 'unknown'),
          text('lifecycle:transition', 'complete'),
          date('time:timestamp', '1970-01-01T00:00:00.000Z'),
          text('org:role', 'unknown'),
        ],
      },
      { name: 'classifier', attributes: { name: 'Activity', keys: 'concept:name' } },
      {
        name: 'classifier',
        attributes: { name: 'Activity and role', keys: 'concept:name org:role' },
      },
      text('concept:name', `${invented ? 'invented: ' : ''}${caseFile.reference}`),
      text('lifecycle:model', 'standard'),
      text('software', software),
      {
        name: 'trace',
        inside: [
          text('concept:name', caseFile.reference),
          flag('invented', `${invented}`),
          flag('closed', `${closed}`),
          date('opened', opened),
          ...activities.map((one) =>
            eventOf(one, opened, one.step === null ? null : (titles.get(one.step) ?? null)),
          ),
        ],
      },
    ],
  });
}
