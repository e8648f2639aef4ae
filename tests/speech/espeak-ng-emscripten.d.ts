/** The part of the eSpeak NG build that the tests use; the package ships no types. */
declare module '@echogarden/espeak-ng-emscripten' {
  interface Worker {
    /** 22 050 Hz. */
    readonly samplerate: number;
    /** Words a minute, 175 unless set. */
    set_rate(wordsPerMinute: number): void;
    /** 0 to 100, 50 unless set. */
    set_pitch(pitch: number): void;
    /** 0 when found; an unknown `+variant` is taken for the plain voice without a word. */
    set_voice(name: string): number;
    /** Gives 16-bit samples in pieces; the callback's truthy result stops it. */
    synthesize(text: string, callback: (samples: Int16Array | null) => boolean | void): void;
  }
  export interface EspeakModule {
    /** All of its memory. */
    readonly HEAPU8: Uint8Array;
    readonly eSpeakNGWorker: new () => Worker;
    readonly FS: { readdir(path: string): string[] };
  }
  export default function load(): Promise<EspeakModule>;
}
