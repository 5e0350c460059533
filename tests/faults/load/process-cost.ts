import { readFileSync } from 'node:fs';

/** Clock ticks a second in `/proc/PID/stat`; 100 on every Linux that Node runs on. [from memory, not seen] */
const TICKS_PER_S = 100;

/** What a process holds in memory now and held at most, in megabytes (10^6 bytes), and its processor time in seconds. */
export interface ProcessCost {
  readonly residentMb: number;
  readonly highestMb: number;
  readonly cpuS: number;
}

/** Reads `/proc` of a running process; null where there is none, as on other systems than Linux. */
export function processCost(pid: number): ProcessCost | null {
  try {
    const status = readFileSync(`/proc/${pid}/status`, 'utf8');
    const megabytes = (name: string): number => (Number(new RegExp(`^${name}:\\s+(\\d+) kB$`, 'm').exec(status)?.[1] ?? 0) * 1024) / 1e6; // prettier-ignore
    // The name of the program stands in brackets and may hold blanks; user and system time are the 12th and 13th after it.
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8')
      .replace(/^.*\) /s, '')
      .split(' ');
    const cpuS = (Number(fields[11]) + Number(fields[12])) / TICKS_PER_S;
    return { residentMb: megabytes('VmRSS'), highestMb: megabytes('VmHWM'), cpuS };
  } catch {
    return null;
  }
}
