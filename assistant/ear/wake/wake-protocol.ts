/** What the page and the keyed wake word's worker say to each other. */
import { z } from 'zod';

/** What the practice gives, kept in the browser's database and never in a record. */
export interface PorcupineSettings {
  readonly accessKey: string;
  /** The engine's model file (.pv). */
  readonly model: Uint8Array;
  readonly keyword:
    | { readonly kind: 'builtin'; readonly name: string }
    | { readonly kind: 'file'; readonly name: string; readonly bytes: Uint8Array };
  /** 0 (misses more) to 1 (more false alarms); the engine's own choice is 0.5. */
  readonly sensitivity: number;
}

/** Page to worker. */
export type WakeRequest =
  | { readonly kind: 'open'; readonly settings: PorcupineSettings }
  | { readonly kind: 'frame'; readonly pcm: Int16Array<ArrayBuffer> }
  | { readonly kind: 'close' };

const failure = { status: z.number().nullable(), message: z.string() };

/** Worker to page. */
export const wakeReply = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('opened'), frameLength: z.int().positive() }),
  z.object({ kind: z.literal('unknown keyword'), builtins: z.array(z.string()) }),
  z.object({ kind: z.literal('failed'), ...failure }),
  z.object({ kind: z.literal('wake') }),
  z.object({ kind: z.literal('trouble'), ...failure }),
  z.object({ kind: z.literal('closed') }),
]);
export type WakeReply = z.infer<typeof wakeReply>;
