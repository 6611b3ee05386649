import { readdirSync, readFileSync } from 'node:fs';

/** Largest resident memory of a process so far, MB; null where /proc is missing or the process is gone. */
function peakOf(pid: string): number | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const kilobytes = /VmHWM:\s+(\d+) kB/.exec(status)?.[1];
    return kilobytes ? Number(kilobytes) / 1024 : null;
  } catch (error) {
    if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ESRCH')) return null;
    throw error;
  }
}

function childrenOf(pid: number): string[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((name) => {
      try {
        return new RegExp(`\\) \\S ${pid} `).test(readFileSync(`/proc/${name}/stat`, 'utf8'));
      } catch (error) {
        if (error instanceof Error && 'code' in error && (error.code === 'ENOENT' || error.code === 'ESRCH')) {
          return false;
        }
        throw error;
      }
    });
}

/** Peak of this process and of its largest child, MB, as text; says so where it cannot be told. */
export function peakMemoryText(): string {
  if (process.platform !== 'linux') return 'not told on this system';
  const children = childrenOf(process.pid).map((pid) => peakOf(pid) ?? 0);
  const own = peakOf(String(process.pid)) ?? 0;
  return `engine ${own.toFixed(0)} MB, decoding child ${Math.max(0, ...children).toFixed(0)} MB`;
}

/** What the children of this process have computed so far, ms; 0 where the system does not show it as a file. */
export function childCpuMs(): number {
  if (process.platform !== 'linux') return 0;
  const ticks = childrenOf(process.pid).map((pid) => {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1].split(' ');
    return Number(fields[11]) + Number(fields[12]);
  });
  // A tick is 10 ms on every Linux that Node runs on.
  return 10 * ticks.reduce((sum, value) => sum + value, 0);
}
