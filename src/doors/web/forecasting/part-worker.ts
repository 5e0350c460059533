/// <reference lib="webworker" />
import { runPart, type Part } from '../../../forecast/parts.ts';

/** The second core: runs parts of a forecast as they come in. */
self.addEventListener('message', (event: MessageEvent<Part>) => {
  const memory = runPart(event.data);
  self.postMessage(memory, { transfer: [memory] });
});
