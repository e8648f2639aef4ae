import { describe, expect, it } from 'vitest';
import { OwnLevel, type Part } from '../../assistant/ear/vad/own-level.ts';

interface Stretch {
  readonly frames: number;
  readonly decibels: number;
  readonly duringCall?: boolean;
  readonly speaking?: boolean;
  readonly isSpeech?: boolean;
}

const frameAt = (decibels: number): Float32Array =>
  new Float32Array(512).fill(10 ** (decibels / 20));

/** What the last frame of each stretch is, and where the onsets were. */
function parts(level: OwnLevel, stretches: readonly Stretch[]): { last: Part[]; onsets: number[] } {
  const [last, onsets]: [Part[], number[]] = [[], []];
  stretches.forEach((stretch, which) => {
    const { frames, decibels, duringCall = true, speaking = true, isSpeech = true } = stretch;
    const all = Array.from({ length: frames }, () =>
      level.take(frameAt(decibels), duringCall, speaking, isSpeech),
    );
    last.push(all.at(-1) ?? 'unknown');
    if (all.includes('onset')) onsets.push(which);
  });
  return { last, onsets };
}

const opened: Stretch = { frames: 1, decibels: -45, speaking: false };
const call: Stretch = { frames: 20, decibels: -45 };
const person: Stretch = { frames: 10, decibels: -24 };

describe('while a call sounds', () => {
  it('a person begins where it gets louder, and the call goes on where it does not', () => {
    const softer: Stretch = { frames: 3, decibels: -34 };
    const { last, onsets } = parts(new OwnLevel(), [opened, call, person, softer, call, person]);
    expect(last).toEqual(['unknown', 'unknown', 'unknown', 'unknown', 'call', 'unknown']);
    expect(onsets).toEqual([2]);
  });

  it('a person no louder than the call is not told from it', () => {
    const low: Stretch = { frames: 10, decibels: -39 };
    expect(parts(new OwnLevel(), [opened, call, low, call])).toEqual({
      last: ['unknown', 'unknown', 'unknown', 'unknown'],
      onsets: [],
    });
  });

  it('nothing within 12 dB of the loudest of a person is taken for the call', () => {
    const level = new OwnLevel();
    parts(level, [opened, call]);
    // It began before the call did, at the level of the calls.
    const before: Stretch = { frames: 1, decibels: -38, duringCall: false, speaking: false };
    expect(parts(level, [before, { frames: 10, decibels: -46 }]).last[1]).toBe('unknown');
    expect(parts(level, [{ frames: 2, decibels: -51 }]).last[0]).toBe('call');
  });

  it('a noise louder than it is not learnt from', () => {
    const suction: Stretch = { frames: 30, decibels: -30, isSpeech: false };
    const { last } = parts(new OwnLevel(), [opened, call, suction, person, call]);
    expect(last.at(-1)).toBe('call');
    const soft: Stretch = { frames: 3, decibels: -34 };
    expect(parts(new OwnLevel(), [opened, suction, person, soft]).last.at(-1)).toBe('unknown');
  });

  it('somebody who speaks into the very first frames is not taken for a loud call for long', () => {
    const level = new OwnLevel();
    const { onsets } = parts(level, [
      { ...opened, decibels: -24 },
      person,
      { ...call, frames: 180 },
    ]);
    expect(onsets).toEqual([]);
    expect(parts(level, [person]).onsets).toEqual([0]);
  });

  it('the very first frames of the first call tell nothing', () => {
    const { onsets } = parts(new OwnLevel(), [
      { ...opened, decibels: -60 },
      { ...call, frames: 2 },
    ]);
    expect(onsets).toEqual([]);
  });
});

it('where none sounds, levels tell nothing', () => {
  const level = new OwnLevel();
  parts(level, [opened, call]);
  const quiet: Stretch = { frames: 5, decibels: -50, duringCall: false };
  const { last, onsets } = parts(level, [
    { ...person, duringCall: false, frames: 1, speaking: false },
    { ...person, duringCall: false },
    quiet,
  ]);
  expect(last).toEqual(['unknown', 'unknown', 'unknown']);
  expect(onsets).toEqual([]);
});
