// Runs the thread beside the server's own from source, as `vatside` runs the command: a thread has a loader of its own.
import { register } from 'tsx/esm/api';

register();
await import('../src/doors/server/aside/aside-thread.ts');
