/** The real machine behind a command: streams, files, clock, and the keys that stop a program. */
import { readFileSync } from 'node:fs';
import { text } from 'node:stream/consumers';
import type { World } from './world.ts';

/** This process. A reader that goes away (`| head`) ends it quietly. */
export function machine(): World {
  process.stdout.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit(0);
  });
  return {
    argv: process.argv.slice(2),
    out: (said) => void process.stdout.write(said),
    err: (said) => void process.stderr.write(said),
    stdin: () => (process.stdin.isTTY ? null : text(process.stdin)),
    readFile: (path) => readFileSync(path, 'utf8'),
    now: () => Date.now(),
    locale: process.env['LC_ALL'] ?? process.env['LC_MESSAGES'] ?? process.env['LANG'],
    columns: process.stdout.isTTY ? process.stdout.columns : undefined,
    stopped: () =>
      new Promise((resolve) => {
        process.once('SIGINT', () => resolve());
        process.once('SIGTERM', () => resolve());
      }),
    ...(process.stdin.isTTY ? { pressed } : {}),
  };
}

/** A terminal hands its lines over at Enter; while one listens the program does not end by itself. */
function pressed(heard: () => void): () => void {
  process.stdin.on('data', heard).resume();
  return () => void process.stdin.off('data', heard).pause();
}
