/** Words that steer the talk and the timers. "stop" is here too: it is live always. */
import { row, type Row } from './row.ts';

export const CONTROL: readonly Row[] = [
  row('stop | stop stop | stop everything', { type: 'stop' }),
  row('[okay] next step | okay next | next please | move on', { type: 'next' }),
  row('go back | go back one step | back one step', { type: 'back' }),
  row('undo that | undo it | take that back', { type: 'undo' }),
  row('yes | yes please | yes go ahead | go ahead | confirm | confirmed | agreed', {
    type: 'confirm',
  }),
  row('no | no thanks | no cancel | cancel | cancel that | negative', { type: 'deny' }),
  row('pause | pause please | pause the case', { type: 'pause' }),
  row('resume | resume please | resume the case | carry on', { type: 'resume' }),
  row('hold timer | hold the timer', { type: 'hold' }),
  row('start timer | start the timer | release the timer', { type: 'release' }),
  row('how long left | how long is left | how much time is left | time left', {
    type: 'ask',
    about: 'time',
  }),
  row("what now | what's next | what is next | which step", { type: 'ask', about: 'step' }),
  row('tell me why | why is that | why this step', { type: 'ask', about: 'why' }),
  row('say again | say that again | repeat that', { type: 'ask', about: 'repeat' }),
  row("that's it | mark done | mark it done | done with that | it's off | it is off", {
    type: 'finish',
  }),
  row('close the case | close case | all done', { type: 'close' }),
];

/** Seconds that can be added by voice: few, because ten and twenty, or fifteen and fifty, sound alike. */
const ADDED = { 5: 'five', 10: 'ten', 30: 'thirty' };

export const ADDING: readonly Row[] = [
  ...Object.entries(ADDED).map(([seconds, words]) =>
    row(`add ${words} [more] seconds | ${words} more seconds`, {
      type: 'add',
      seconds: Number(seconds),
    }),
  ),
  row('add one [more] minute | add a minute | one more minute', { type: 'add', seconds: 60 }),
];

const NOTES = [
  'the patient moved',
  'anaesthetic given',
  'no anaesthetic',
  'radiograph taken',
  'margin below the gum',
  'haemostatic used',
  'patient in pain',
  'crown adjusted',
  'tooth next door adjusted',
  'extra light given',
  'lot number unreadable',
  'see the chart',
];

/** A note by voice is one of these: a recogniser held to a grammar takes no dictation. */
export const NOTING: readonly Row[] = NOTES.map((text) =>
  row(`note that ${text} | note ${text}`, { type: 'note', text }),
);
