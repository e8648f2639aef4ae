/** The worker's side: owns one recogniser and answers requests one after another. */
import type { Recogniser } from '../port.ts';
import type { Reply, Request } from './protocol.ts';

/**
 * Makes the handler of a worker's messages. `create` opens the engine; `reply` sends to the page.
 * Requests are answered strictly in order: one queue, one inference at a time.
 */
export function serveRecogniser<Options>(
  create: (options: Options) => Promise<Recogniser>,
  reply: (message: Reply) => void,
): (request: Request<Options>) => void {
  let queue: Promise<void> = Promise.resolve();
  let engine: Recogniser | null = null;

  const opened = (): Recogniser => {
    if (!engine) throw new Error('the recogniser is not open');
    return engine;
  };

  const answer = async (request: Request<Options>): Promise<Reply> => {
    const { id } = request;
    switch (request.kind) {
      case 'open':
        engine = await create(request.options);
        return { kind: 'done', id };
      case 'load':
        await opened().load(request.grammar);
        return { kind: 'done', id };
      case 'hearAhead':
        await opened().hearAhead?.(request.pcm);
        return { kind: 'done', id };
      case 'hear':
        return { kind: 'heard', id, heard: await opened().hear(request.pcm) };
      case 'close':
      default:
        await engine?.close();
        engine = null;
        return { kind: 'done', id };
    }
  };

  const serve = async (before: Promise<void>, request: Request<Options>): Promise<void> => {
    await before;
    try {
      reply(await answer(request));
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      reply({ kind: 'failed', id: request.id, message });
    }
  };

  return (request) => {
    queue = serve(queue, request);
  };
}
