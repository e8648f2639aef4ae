/** The test process's side of speech-process.ts. */
import { type ChildProcess, fork } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { z } from 'zod';
import type { Order } from './speech-process.ts';

const Answer = z.object({ id: z.number(), error: z.string().nullable() });

interface Waiting {
  readonly done: () => void;
  readonly failed: (error: Error) => void;
}

let child: ChildProcess | undefined;
let last = 0;
const waiting = new Map<number, Waiting>();

/** While nothing is awaited the maker must not keep the test process from ending. */
function hold(made: ChildProcess): void {
  if (waiting.size > 0) {
    made.ref();
    made.channel?.ref();
  } else {
    made.unref();
    made.channel?.unref();
  }
}

function start(): ChildProcess {
  const made = fork(fileURLToPath(new URL('./speech-process.ts', import.meta.url)), [], {
    execArgv: ['--import', 'tsx', '--disable-warning=ExperimentalWarning'],
  });
  made.on('message', (message) => {
    const { id, error } = Answer.parse(message);
    const one = waiting.get(id);
    waiting.delete(id);
    hold(made);
    if (error === null) one?.done();
    else one?.failed(new Error(error));
  });
  const gone = (why: string): void => {
    if (child === made) child = undefined;
    for (const { failed } of waiting.values()) failed(new Error(why));
    waiting.clear();
  };
  made.on('error', (error) => gone(error.message));
  made.on('exit', (code, signal) => gone(`the speech process ended with ${code ?? signal}`));
  return made;
}

/** Makes one piece of speech. Rejects with the synthesiser's error. */
export function makeSpeech(order: Omit<Order, 'id'>): Promise<void> {
  child ??= start();
  const made = child;
  last += 1;
  const id = last;
  const answer = new Promise<void>((done, failed) => waiting.set(id, { done, failed }));
  hold(made);
  made.send({ ...order, id });
  return answer;
}
