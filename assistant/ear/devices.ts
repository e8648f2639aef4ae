/** The microphones a browser knows, and the one the practice chose. */

/** A microphone by the browser's id and name for it. */
export interface MicrophoneChoice {
  /** As `enumerateDevices` gives it: kept by the browser for this page's address. */
  readonly id: string;
  readonly label: string;
}

/** Ids that stand for whatever the system uses, beside that device's own. */
const SYSTEMS_CHOICE: readonly string[] = ['default', 'communications'];

/** Vendor and product in hexadecimal, with which some browsers end a USB device's name. */
const USB_NUMBERS = / \([\da-f]{4}:[\da-f]{4}\)$/iu;

/**
 * The microphones among `devices`, without those that stand for the system's choice. Empty before
 * the microphone was allowed: until then a browser tells neither ids nor names.
 */
export function microphonesAmong(
  devices: readonly Pick<MediaDeviceInfo, 'kind' | 'deviceId' | 'label'>[],
): readonly MicrophoneChoice[] {
  return devices
    .filter(({ kind, deviceId, label }) => kind === 'audioinput' && deviceId !== '' && label !== '')
    .filter(({ deviceId }) => !SYSTEMS_CHOICE.includes(deviceId))
    .map(({ deviceId, label }) => ({ id: deviceId, label: label.replace(USB_NUMBERS, '') }));
}

/**
 * True when `error` of `getUserMedia` says that the device asked for is not there.
 * Names: W3C, Media Capture and Streams, section 10.3 (getUserMedia).
 */
export const isAbsent = (error: unknown): boolean =>
  error instanceof Error &&
  (error.name === 'OverconstrainedError' || error.name === 'NotFoundError');
