import { spawnSync } from 'node:child_process';

/** Builds the page once, by the command a user would use, before any browser test runs. */
export default function setup(): void {
  // The test runner calls the environment `test`, for which libraries bring their slow, talkative form.
  const env = { ...process.env, NODE_ENV: 'production' };
  const { status } = spawnSync('npm', ['run', '--silent', 'build'], { stdio: 'inherit', env });
  if (status !== 0) throw new Error('npm run build failed; its output is above');
}
