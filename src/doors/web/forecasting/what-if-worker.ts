/// <reference lib="webworker" />
import type { Base } from '../../../forecast/first-look.ts';
import { baseOf, whatIf } from '../../../forecast/what-if.ts';
import type { WhatIfBase, WhatIfQuestion, WhatIfReply } from './what-if-messages.ts';

/** So few follow a finger from tap to tap; all of them come after, once it rests. Our own choice. */
const FEW = 32;

/** Answers what-ifs beside the page: the members of the make as it stands are kept, and go on under each change. */
let newest = 0;
let standing: { readonly base: WhatIfBase; readonly of: Base } | null = null;
const reply = (message: WhatIfReply): void => self.postMessage(message);
/** Lets a newer question in before the next run. */
const breath = (): Promise<void> => new Promise((resolve) => setTimeout(resolve, 0));

const said = (error: unknown): string => (error instanceof Error ? error.message : String(error));

async function answer({ number, settings }: WhatIfQuestion): Promise<void> {
  for (const last of [false, true]) {
    await breath();
    if (number !== newest || standing === null) return;
    const { base, of } = standing;
    try {
      reply({ number, answer: whatIf(of, { ...base, settings, ...(last ? {} : { count: FEW }) }), last });
    } catch (error) {
      reply({ number, failed: said(error) });
      return;
    }
  }
}

self.addEventListener('message', (event: MessageEvent<WhatIfQuestion>) => {
  const { number, base } = event.data;
  newest = number;
  try {
    if (base !== null) standing = { base, of: baseOf(base) };
  } catch (error) {
    standing = null;
    reply({ number, failed: said(error) });
  }
  void answer(event.data);
});
