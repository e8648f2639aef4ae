/** One clip through the recogniser. */
import type { Heard, Pcm, Recogniser } from '../ear/port.ts';
import { SAMPLE_RATE } from '../ear/port.ts';
import type { SpeechWeights } from '../ear/vad/speech-network.ts';
import { VoiceActivity } from '../ear/vad/voice-activity.ts';

/** A clip up to this long is one segment, seconds; a longer one is cut where speech pauses. */
const ONE_SEGMENT = 20;

/** The first thing believed in a clip, whatever would only be asked back left out; null when nothing is. */
export async function hearClip(
  recogniser: Recogniser,
  pcm: Pcm,
  loadWeights: () => Promise<SpeechWeights>,
): Promise<Heard | null> {
  if (pcm.length <= ONE_SEGMENT * SAMPLE_RATE) return believed(await recogniser.hear(pcm));
  const activity = new VoiceActivity(await loadWeights());
  for (const event of [...activity.push(pcm), ...activity.end()]) {
    if (event.kind !== 'segment') continue;
    // One after another: the first heard settles the clip.
    const heard = believed(await recogniser.hear(event.pcm));
    if (heard !== null) return heard;
  }
  return null;
}

const believed = (heard: Heard | null): Heard | null => (heard?.sure === true ? heard : null);
