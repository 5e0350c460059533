// Runs the thread for questions from source, as `vatside` runs the command: a thread has a loader of its own.
import { register } from 'tsx/esm/api';

register();
await import('../src/doors/server/solving/solve-thread.ts');
