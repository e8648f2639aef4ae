/** What page and recogniser worker say to each other; every message carries its request's id. */
import { z } from 'zod';
import type { Heard } from '../port.ts';

/** Page to worker. `Options` is what the engine's factory needs. */
export type Request<Options> =
  | { readonly kind: 'open'; readonly id: number; readonly options: Options; readonly lock: string }
  | { readonly kind: 'load'; readonly id: number; readonly grammar: string }
  | {
      readonly kind: 'hear' | 'hearAhead';
      readonly id: number;
      readonly pcm: Float32Array<ArrayBuffer>;
    }
  | { readonly kind: 'close'; readonly id: number };

const reading = { phrase: z.string(), score: z.number() };

const heard = z.object({
  ...reading,
  sure: z.boolean(),
  others: z.array(z.object(reading)).readonly().exactOptional(),
}) satisfies z.ZodType<Heard>;

/** Worker to page. */
export const replySchema = z.discriminatedUnion('kind', [
  z.object({ kind: z.literal('done'), id: z.number() }),
  z.object({ kind: z.literal('heard'), id: z.number(), heard: heard.nullable() }),
  z.object({ kind: z.literal('failed'), id: z.number(), message: z.string() }),
]);

export type Reply = z.infer<typeof replySchema>;
