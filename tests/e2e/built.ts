import { spawnSync } from 'node:child_process';

/**
 * Builds the page by the command a user would use.
 * @throws Error when the build fails.
 */
export function requireBuild(): void {
  // The test runner calls the environment `test`, for which libraries bring their slow, talkative form.
  const env = { ...process.env, NODE_ENV: 'production' };
  const { status } = spawnSync('npm', ['run', '--silent', 'build'], { stdio: 'inherit', env });
  if (status !== 0) throw new Error('npm run build failed; its output is above');
}

/** Builds the page once before any browser test runs, unless whoever started the tests has. */
export default function setup(): void {
  if (process.env['SEATCALL_BUILT'] !== '1') requireBuild();
}
