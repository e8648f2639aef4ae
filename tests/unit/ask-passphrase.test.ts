import { EventEmitter } from 'node:events';
import { expect, test } from 'vitest';
import { askHidden, Interrupted } from '../../assistant/cli/ask-passphrase.ts';

/** A terminal's input: what is typed comes in pieces, and is echoed unless the mode is raw. */
class Keyboard extends EventEmitter {
  raw = false;
  readonly echoed: string[] = [];

  setRawMode(raw: boolean): void {
    this.raw = raw;
  }

  resume(): void {}

  pause(): void {}

  type(...pieces: readonly (string | Buffer)[]): void {
    for (const piece of pieces) {
      if (!this.raw) this.echoed.push(String(piece));
      this.emit('data', Buffer.from(piece));
    }
  }
}

const asked = async (...pieces: readonly (string | Buffer)[]) => {
  const keyboard = new Keyboard();
  const said: string[] = [];
  const answer = askHidden(keyboard, (text) => said.push(text), 'Passphrase: ');
  keyboard.type(...pieces);
  const typed = await answer.catch((error: unknown) => error);
  return { typed, said: said.join(''), raw: keyboard.raw, echoed: keyboard.echoed };
};

test('what is typed is taken and never shown; the terminal is as it was', async () => {
  expect(await asked('four words', ' will do', '\r')).toEqual({
    typed: 'four words will do',
    said: 'Passphrase: \n',
    raw: false,
    echoed: [],
  });
});

test('a character is taken back, and one in two pieces stays whole', async () => {
  const [first, second] = [Buffer.from('ü').subarray(0, 1), Buffer.from('ü').subarray(1)];
  expect((await asked('abx', '\u007f', first, second, 'd\n')).typed).toBe('abüd');
});

test('Ctrl-C ends it and leaves the terminal as it was', async () => {
  const { typed, raw } = await asked('abc', '\u0003');
  expect(typed).toBeInstanceOf(Interrupted);
  expect(raw).toBe(false);
});
