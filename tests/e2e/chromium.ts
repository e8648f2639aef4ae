/** Finds the browser for the tests; run as a script, installs Debian's where it may. */
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { argv, env, getuid } from 'node:process';
import { pathToFileURL } from 'node:url';

const PLACES = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome'];

/**
 * The browser's path: `SEATCALL_CHROMIUM` if set, else where packages put it; undefined if there
 * is none.
 */
export function findChromium(): string | undefined {
  const places = env['SEATCALL_CHROMIUM'] === undefined ? PLACES : [env['SEATCALL_CHROMIUM']];
  return places.find((place) => existsSync(place));
}

/**
 * As {@link findChromium}, for a test that cannot go on without.
 * @throws Error saying how to get one.
 */
export function requireChromium(): string {
  const found = findChromium();
  if (found === undefined) throw new Error(ASK);
  return found;
}

const ASK =
  'The browser tests need Chromium: install it (Debian: apt-get install chromium) or set SEATCALL_CHROMIUM to its path.';

function run(command: string, ...args: readonly string[]): boolean {
  const options = { stdio: 'inherit', env: { ...env, DEBIAN_FRONTEND: 'noninteractive' } } as const;
  return spawnSync(command, args, options).status === 0;
}

/** Makes sure there is a browser; on Debian as root, by its package. Returns the exit code. */
function provide(): number {
  if (findChromium() !== undefined) return 0;
  if (
    env['SEATCALL_CHROMIUM'] === undefined &&
    existsSync('/usr/bin/apt-get') &&
    getuid?.() === 0
  ) {
    console.log('Installing Chromium from the Debian package, for the browser tests.');
    run('apt-get', 'update', '-qq');
    run(
      'apt-get',
      'install',
      '-y',
      '-qq',
      '--no-install-recommends',
      'chromium',
      'fonts-dejavu-core',
    );
  }
  if (findChromium() !== undefined) return 0;
  console.error(ASK);
  return 1;
}

if (argv[1] !== undefined && import.meta.url === pathToFileURL(argv[1]).href) {
  process.exitCode = provide();
}
