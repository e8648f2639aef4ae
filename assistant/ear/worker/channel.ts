/** A line to one worker, so that the restart logic needs no browser. */
import type { Reply, Request } from './protocol.ts';

export interface Channel<Options> {
  send(request: Request<Options>): void;
  /** Ends the worker; `onDeath` is not told. */
  end(): void;
}

export interface ChannelHandlers {
  readonly onReply: (reply: Reply) => void;
  /** The worker is gone, for the reason given; it will not answer any more. */
  readonly onDeath: (why: string) => void;
}

/** Starts a worker. */
export type OpenChannel<Options> = (handlers: ChannelHandlers) => Channel<Options>;
