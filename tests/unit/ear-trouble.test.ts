import { describe, expect, it } from 'vitest';
import { AT_REST, earView, TroubleCalls } from '../../assistant/app/hearing-state.ts';
import { isAbsent, microphonesAmong } from '../../assistant/ear/devices.ts';
import { microphoneTrouble, otherDevice, trouble } from '../../assistant/ear/trouble.ts';
import { openPorcupine } from '../../assistant/ear/wake/porcupine.ts';
import { porcupineTrouble } from '../../assistant/ear/wake/porcupine-trouble.ts';
import { openWakeWord } from '../../assistant/ear/wake/index.ts';
import type { EarTrouble } from '../../assistant/ear/trouble.ts';

const handlers = { onWake: () => undefined, onTrouble: () => undefined };

describe('the microphone’s errors, by the names of Media Capture and Streams', () => {
  it.each([
    ['NotAllowedError', 'denied'],
    ['SecurityError', 'denied'],
    ['NotFoundError', 'no device'],
    ['OverconstrainedError', 'no device'],
    ['NotReadableError', 'in use'],
    ['AbortError', 'in use'],
    ['NotSupportedError', 'unsupported'],
    ['TypeError', 'unsupported'],
    ['SomethingNew', 'in use'],
  ])('%s is "%s"', (name, kind) => {
    expect(microphoneTrouble(new DOMException('no', name))).toEqual(
      trouble(kindOf(kind), `${name}: no`),
    );
  });

  function kindOf(kind: string): 'denied' | 'no device' | 'in use' | 'unsupported' {
    if (kind === 'denied' || kind === 'no device' || kind === 'unsupported') return kind;
    return 'in use';
  }

  it('says what is wrong and what to do', () => {
    expect(microphoneTrouble(new DOMException('no', 'NotAllowedError'))).toEqual({
      kind: 'denied',
      sentence: 'The microphone is not allowed.',
      remedy: "Allow the microphone in the browser's address bar; hearing starts by itself then.",
      detail: 'NotAllowedError: no',
    });
  });
});

describe('the chosen microphone', () => {
  it('is missed by its name, with what to do', () => {
    expect(otherDevice('Headset')).toEqual({
      kind: 'other device',
      sentence: 'Another microphone is listening.',
      remedy: 'Plug in “Headset”, or choose another in the settings.',
      detail: 'Headset',
    });
    expect(otherDevice('Headset '.repeat(20)).remedy).toMatch(/“(?:Headset ){4}Hea…”/u);
  });

  it.each([
    ['OverconstrainedError', true],
    ['NotFoundError', true],
    ['NotAllowedError', false],
    ['NotReadableError', false],
  ])('after %s it is absent: %s', (name, absent) => {
    expect(isAbsent(new DOMException('no', name))).toBe(absent);
  });

  it('is one of the inputs with a name, not what stands for the system’s choice', () => {
    const device = (kind: MediaDeviceKind, deviceId: string, label: string) => ({
      kind,
      deviceId,
      label,
    });
    expect(
      microphonesAmong([
        device('audioinput', 'default', 'Default - Headset'),
        device('audioinput', 'communications', 'Communications - Headset'),
        device('audioinput', 'a', 'Headset (0a12:100F)'),
        device('audiooutput', 'b', 'Speaker'),
        device('videoinput', 'c', 'Camera'),
      ]),
    ).toEqual([{ id: 'a', label: 'Headset' }]);
    // Before the microphone was allowed, all of them look like this.
    expect(microphonesAmong([device('audioinput', '', '')])).toEqual([]);
  });
});

describe('what makes hearing worse', () => {
  const on = { ...AT_REST, phase: 'on' } as const;
  const { sentence: softly, remedy } = trouble('faint');

  it('is shown where nothing else is to be seen, and gives way to what ends hearing', () => {
    const troubles = [trouble('faint')];
    expect(earView({ ...on, troubles }, 0)).toEqual({ kind: 'trouble', sentence: softly, remedy });
    const lasting = [otherDevice('Headset'), ...troubles];
    expect(earView({ ...on, troubles: lasting }, 0)).toMatchObject({ sentence: softly });
    expect(earView({ ...on, troubles, speechSinceMs: 0 }, 100)).toEqual({ kind: 'hearing' });
    expect(earView({ ...on, troubles, openUntilMs: 900 }, 100).kind).toBe('awake');
    expect(earView({ ...on, troubles: [...troubles, trouble('lost')] }, 0)).toMatchObject({
      sentence: 'The microphone is gone.',
    });
  });

  it('is said once in ten minutes; what ends hearing is said each time', () => {
    const calls = new TroubleCalls();
    const said = (kind: 'faint' | 'clipped' | 'lost' | 'wake word', minute: number) =>
      calls.callFor(trouble(kind), minute * 60_000);
    const faint = { id: 'hears-badly', why: 'faint' };
    expect([said('faint', 0), said('faint', 9.9), said('clipped', 9.9)]).toEqual([
      faint,
      null,
      { id: 'hears-badly', why: 'clipped' },
    ]);
    expect(said('faint', 10)).toEqual(faint);
    const deaf = { id: 'cannot-hear' };
    expect([said('lost', 11), said('lost', 11), said('wake word', 11)]).toEqual([deaf, deaf, null]);
  });
});

describe('the keyed wake-word engine', () => {
  const sentence = (status: number | null, message = '', online = true): string =>
    porcupineTrouble({ status, message, online }).sentence;

  it('each status has its own sentence', () => {
    expect(
      [10_001, 10_003, 10_005, 10_008, 10_009, 10_010, 10_011, null].map((s) => sentence(s)),
    ).toEqual([
      'There is no memory left for the wake-word engine.',
      'The wake-word engine cannot read its files.',
      'The wake-word access key is not valid.',
      'The wake-word access key could not be checked.',
      'The wake-word access key has reached its limit.',
      'The wake-word key was checked too often.',
      'The wake-word access key was refused.',
      'The wake-word engine cannot be started.',
    ]);
  });

  it('the engine’s words tell apart what shares a status', () => {
    expect(sentence(10_003, 'Invalid AccessKey')).toBe('The wake-word access key is not valid.');
    expect(sentence(10_003, 'keyword file belongs to a different platform')).toBe(
      'The keyword file was made for another platform.',
    );
    expect(sentence(10_003, 'keyword file is of a different language')).toBe(
      'The keyword and the model are of different languages.',
    );
    expect(sentence(10_003, 'file belongs to a different version of the library')).toBe(
      'The keyword or the model was made for another version of the wake-word engine.',
    );
    expect(sentence(10_007, 'failed to fetch', false)).toBe(
      'The wake-word access key could not be checked.',
    );
  });

  it('every trouble says that the call sign goes on', () => {
    for (const status of [10_001, 10_003, 10_005, 10_008, 10_009, 10_010, 10_011, null])
      expect(porcupineTrouble({ status, message: '', online: true }).remedy).toContain(
        'The call sign works meanwhile.',
      );
  });

  const settings = {
    accessKey: 'key',
    model: Uint8Array.of(1),
    keyword: { kind: 'builtin', name: 'Grapefruit' },
    sensitivity: 0.5,
  } as const;

  it.each([
    [{ ...settings, accessKey: ' ' }, 'The wake-word engine has no access key.'],
    [{ ...settings, model: new Uint8Array(0) }, 'The wake-word engine has no model file.'],
    [
      { ...settings, keyword: { kind: 'file', name: 'x', bytes: new Uint8Array(0) } } as const,
      'The wake-word engine has no keyword file.',
    ],
  ])('what is missing is named before the engine is asked', async (given, wanted) => {
    const opened = await openPorcupine(given, handlers);
    expect(opened.kind === 'failed' && opened.trouble.sentence).toBe(wanted);
  });

  it('whose settings do not do leaves the embedded call sign in place', async () => {
    const told: EarTrouble[] = [];
    const wakeWord = await openWakeWord(
      'Lantern',
      { ...settings, accessKey: '' },
      { onWake: () => undefined, onTrouble: (found) => told.push(found) },
    );
    expect(wakeWord.words).toEqual(['lantern']);
    expect(told.map(({ sentence: said }) => said)).toEqual([
      'The wake-word engine has no access key.',
    ]);
  });
});
