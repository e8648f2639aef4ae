/** What a browser's page costs the machine, by the kernel's own account (Linux, /proc). */
import { readdir, readFile } from 'node:fs/promises';

export interface PageCost {
  /** Processor time of all threads of the page's process, ms. */
  readonly cpuMs: number;
  /** Memory that is its own, and its share of what it shares with others (PSS), bytes. */
  readonly bytes: number;
}

/** Clock ticks a second: USER_HZ, 100 on every Linux that Debian builds (proc(5)). */
const TICKS = 100;

interface Process {
  readonly pid: number;
  readonly parent: number;
  readonly command: string;
  readonly cpuMs: number;
}

async function read(pid: number): Promise<Process | null> {
  try {
    const command = (await readFile(`/proc/${pid}/cmdline`, 'utf8')).replaceAll('\0', ' ');
    const stat = await readFile(`/proc/${pid}/stat`, 'utf8');
    // After the name in brackets, which may hold spaces: state, parent, ... utime and stime.
    const fields = stat.slice(stat.lastIndexOf(')') + 2).split(' ');
    const ticks = Number(fields[11]) + Number(fields[12]);
    return { pid, parent: Number(fields[1]), command, cpuMs: (ticks * 1000) / TICKS };
  } catch {
    // Gone between the listing and the look.
    return null;
  }
}

/**
 * What each page's process of the browser that runs on `profile` cost so far, by its number.
 * @throws Error when no such browser runs.
 */
async function pageCosts(profile: string): Promise<ReadonlyMap<number, PageCost>> {
  const pids = (await readdir('/proc')).map(Number).filter((pid) => pid > 0);
  const all = (await Promise.all(pids.map(read))).filter((one) => one !== null);
  const main = all.find(
    ({ command }) => command.includes(`--user-data-dir=${profile}`) && !command.includes('--type='),
  );
  if (main === undefined) throw new Error(`no browser runs on ${profile}`);
  const below = new Set([main.pid]);
  // Twice: renderers are children of a child.
  for (let round = 0; round < 3; round += 1)
    for (const { pid, parent } of all) if (below.has(parent)) below.add(pid);
  const costs = new Map<number, PageCost>();
  for (const { pid, command, cpuMs } of all) {
    if (!below.has(pid) || !command.includes('--type=renderer')) continue;
    // One that has gone has no size, which no budget allows.
    const rollup = await readFile(`/proc/${pid}/smaps_rollup`, 'utf8').catch(() => '');
    const kilobytes = Number(/^Pss:\s+(\d+) kB$/mu.exec(rollup)?.[1]);
    costs.set(pid, { cpuMs, bytes: kilobytes * 1024 });
  }
  return costs;
}

/**
 * What the page that works most in `ms` from now on costs in them: of a browser's several, empty ones
 * among them, whatever they cost before.
 * @throws Error when no page is there all the while.
 */
export async function busiestPage(profile: string, ms: number): Promise<PageCost> {
  const before = await pageCosts(profile);
  await new Promise((resolve) => setTimeout(resolve, ms));
  const [busiest] = [...(await pageCosts(profile))]
    .flatMap(([pid, { cpuMs, bytes }]) => {
      const then = before.get(pid);
      return then === undefined ? [] : [{ cpuMs: cpuMs - then.cpuMs, bytes }];
    })
    .toSorted((one, other) => other.cpuMs - one.cpuMs);
  if (busiest === undefined) throw new Error('the browser has no page');
  return busiest;
}
