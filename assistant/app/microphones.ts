/** The microphones that can be chosen, for the settings page. */
import { microphonesAmong } from '../ear/devices.ts';
import { microphoneTrouble } from '../ear/trouble.ts';
import type { Board } from './board.ts';

export class Microphones {
  readonly #board: Board;

  /** Keeps the list up to date from now on, once the microphone was allowed. */
  constructor(board: Board) {
    this.#board = board;
    navigator.mediaDevices?.addEventListener('devicechange', () => void this.list());
  }

  /** Shows those connected, as far as the browser tells of them. */
  async list(): Promise<void> {
    const devices = (await navigator.mediaDevices?.enumerateDevices().catch(() => [])) ?? [];
    const { settings } = this.#board.state;
    this.#board.set({ settings: { ...settings, microphones: microphonesAmong(devices) } });
  }

  /**
   * Asks for the microphone, lets go of it, and shows those connected.
   * @throws Error saying why the microphone could not be had, and what to do.
   */
  async ask(): Promise<void> {
    try {
      const stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      for (const track of stream.getTracks()) track.stop();
    } catch (error) {
      const { sentence, remedy } = microphoneTrouble(error);
      throw new Error(`${sentence} ${remedy}`, { cause: error });
    }
    await this.list();
  }
}
