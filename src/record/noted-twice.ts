import type { RecordEntry } from './batch-record.ts';

/** Two devices that were out of touch note the end of one step no further apart than this (our own choice: one stage of a make). */
const APART_MS = 30 * 60_000;
/** What one tap notes is written down within so long. */
const ONE_TAP_MS = 2_000;

/** The end of one step as two devices noted it, each without knowing of the other. */
export interface NotedTwice {
  /** Its answer is kept under this: `same`, or `both` where it happened twice. */
  readonly alarmId: string;
  readonly stepId: string;
  /** When either says that it ended, milliseconds UTC, the earlier first. */
  readonly firstAt: number;
  readonly secondAt: number;
  /** What went in with it by both notes; null where nothing did. */
  readonly ingredient: string | null;
  /** What the later note says that another device has said: the events to take back where it was the same. */
  readonly again: readonly string[];
  /** Null until somebody has said which it was. */
  readonly answer: string | null;
}

/**
 * Every end of a step that stands from two devices within half an hour, oldest first. A step that one device ended, took back
 * and ended anew is not among them.
 * @param entries everything noted, as it stands now
 */
export function notedTwice(entries: readonly RecordEntry[]): readonly NotedTwice[] {
  const standing = entries.filter(({ isUnderstood, retracted }) => isUnderstood && retracted === null);
  const ends = standing.filter(({ kind }) => kind === 'stepEnded').sort((a, b) => a.at - b.at);
  const answers = new Map(standing.filter(({ kind }) => kind === 'alarmAnswered').map(({ body }) => [text(body['alarmId']), text(body['answer'])])); // prettier-ignore
  return ends.flatMap((second, index) => {
    const isFirst = (one: RecordEntry): boolean => sameThing(one, second) && one.deviceId !== second.deviceId;
    const first = ends.slice(0, index).find(isFirst);
    if (first === undefined || second.at - first.at > APART_MS) return [];
    const withIt = standing.filter((one) => one.deviceId === second.deviceId && Math.abs(one.loggedAt - second.loggedAt) <= ONE_TAP_MS); // prettier-ignore
    const again = withIt.filter((one) => standing.some((other) => other.deviceId === first.deviceId && Math.abs(other.at - one.at) <= APART_MS && sameThing(one, other))); // prettier-ignore
    const alarmId = `twice.${second.eventId}`;
    const ingredient = text(again.find(({ kind }) => kind === 'added')?.body['ingredient']);
    return [
      {
        alarmId,
        stepId: text(second.body['stepId']),
        firstAt: first.at,
        secondAt: second.at,
        ingredient: ingredient === '' ? null : ingredient,
        again: again.map(({ eventId }) => eventId),
        answer: answers.get(alarmId) ?? null,
      },
    ];
  });
}

const text = (value: unknown): string => (typeof value === 'string' ? value : '');

/** What makes two notes of a kind tell of the same thing. */
const TELLS: Readonly<Record<string, readonly string[]>> = {
  stepStarted: ['stepId'],
  stepEnded: ['stepId'],
  added: ['ingredient'],
  judged: ['judgement', 'grade'],
};

function sameThing(a: RecordEntry, b: RecordEntry): boolean {
  const fields = TELLS[a.kind];
  return fields !== undefined && a.kind === b.kind && fields.every((field) => a.body[field] === b.body[field]);
}
