import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { openWriter } from '../../../exchange/written.ts';
import { LANGUAGES, openWords, sayFrom, type Language, type Say } from '../../../exchange/words.ts';
import { clockNotice } from './clock-notice.ts';

const app = (language: Language): object => JSON.parse(readFileSync(new URL(`../../../../words/${language}/app.json`, import.meta.url), 'utf8')) as object; // prettier-ignore
const catalogues = { 'en-GB': { app: app('en-GB') }, 'en-US': { app: app('en-US') }, es: { app: app('es') } };
const spoken = (language: Language): Say => sayFrom(openWords({ language, catalogues }));

const noticeIn = (language: Language, offsetMs: number): ReturnType<typeof clockNotice> =>
  clockNotice({
    offset: { offsetMs, plusMinusMs: 20, measuredAt: 0 },
    say: spoken(language),
    write: openWriter({ language, units: 'metric' }),
  });

describe('a tablet whose clock is off', () => {
  it('says by how much and which way, in every language, and says nothing under a minute', () => {
    for (const language of LANGUAGES) {
      expect(noticeIn(language, 59_000)).toBeNull();
      expect(noticeIn(language, 3 * 3_600_000)?.title).toMatch(/3.h/);
      expect(noticeIn(language, -90_000)?.title).toMatch(/2.min/);
      expect(noticeIn(language, -90_000)?.title).not.toEqual(noticeIn(language, 90_000)?.title);
    }
    expect(noticeIn('en-GB', 3 * 3_600_000)?.title).toContain('behind');
    expect(noticeIn('es', 3 * 3_600_000)?.title).toContain('atrasado');
  });
});
