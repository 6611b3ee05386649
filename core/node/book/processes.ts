import { readFile } from 'node:fs/promises';
import { hostname } from 'node:os';

/** What tells one process from every other, also after its number was given to another one. */
export interface ProcessMark {
  readonly pid: number;
  readonly host: string;
  /** When it was started, on which start of the system; null where the system does not show it. */
  readonly started: string | null;
}

/** Start of a process in ticks of the system's clock: field 22 of its `stat` (proc(5)). */
async function startOf(pid: number): Promise<string | null> {
  if (process.platform !== 'linux') return null;
  try {
    const stat = await readFile(`/proc/${pid}/stat`, 'utf8');
    // The second field is the program's name in brackets and may hold anything.
    const ticks = stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19];
    const boot = await readFile('/proc/sys/kernel/random/boot_id', 'utf8');
    return `${boot.trim()} ${ticks}`;
  } catch {
    // It has ended, or the system hides it: nothing is known of its start.
    return null;
  }
}

/** This process. */
export async function ownMark(): Promise<ProcessMark> {
  return { pid: process.pid, host: hostname(), started: await startOf(process.pid) };
}

/** Whether a process of this number runs. */
export function isRunning(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    // It runs, but is another user's.
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

/**
 * Whether a process surely runs or has surely ended. Of another machine nobody here can tell, also when it is this one under
 * an earlier name; nor where the number may have been given to another process, which the system does not show.
 */
export async function stateOf(mark: ProcessMark): Promise<'runs' | 'ended' | 'unknown'> {
  if (mark.host !== hostname()) return 'unknown';
  if (!isRunning(mark.pid)) return 'ended';
  const started = await startOf(mark.pid);
  if (started === null || typeof mark.started !== 'string') return 'unknown';
  return started === mark.started ? 'runs' : 'ended';
}

/** Whether a process has surely ended. */
export async function hasEnded(mark: ProcessMark): Promise<boolean> {
  return (await stateOf(mark)) === 'ended';
}
