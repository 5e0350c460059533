import type { ReactNode } from 'react';
import type { BatchRecord } from '../../../record/batch-record.ts';
import { useReader } from '../device/reader.tsx';
import { Card } from '../look/card.tsx';
import { iceWaterAdvice, openItems, type Pause, type ReadyItem } from './get-ready.ts';
import { ReadyPathChoice } from './ready-path.tsx';
import type { ReadyList, ReadyPath } from './short-list.ts';
import { Lacks } from '../pairing/lacks.tsx';
import type { Telling } from './said.ts';
import { VatButton } from './vat-button.tsx';
import './vat-card.css';
import './pause.css';

/** A pause before a point of no return: at most nine things, each ticked or read; open ones may stay and are pinned. */
export function PauseCard({
  pause,
  record,
  telling,
  goes,
  list,
  onPath,
  onReady,
  onUnready,
  onReads,
  bellTest,
}: {
  readonly pause: Pause;
  readonly record: BatchRecord;
  readonly telling: Telling;
  /** The plan in one line, before anything is begun. */
  readonly goes: string | null;
  /** The list and its path, where it can still be chosen. */
  readonly list: ReadyList | null;
  readonly onPath: (path: ReadyPath) => void;
  readonly onReady: (item: ReadyItem) => void;
  /** Takes a tick back. */
  readonly onUnready: (eventId: string) => void;
  readonly onReads: (item: ReadyItem) => void;
  /** Stands in for the item that is listened to. */
  readonly bellTest: ReactNode;
}): ReactNode {
  const { say } = useReader();
  const open = openItems(pause, record);
  return (
    <Card rim className="vat-card pause" aria-labelledby="pause-title">
      <h1 id="pause-title" className="vat-verb">
        {pause.title}
      </h1>
      {goes === null ? null : <p className="vat-manner">{goes}</p>}
      {goes === null ? null : <Lacks isBrief />}
      {list === null ? null : <ReadyPathChoice list={list} onPath={onPath} />}
      <p className="pause-left" role="status">
        {open.length === 0 ? say('vat:pause.all') : say('vat:pause.left', { count: open.length })}
      </p>
      <ul className="pause-items">
        {pause.items.map((item) => (
          <li key={item.id}>
            {item.isBell === true ? (
              bellTest
            ) : (
              <PauseItem
                item={item}
                record={record}
                telling={telling}
                onReady={onReady}
                onUnready={onUnready}
                onReads={onReads}
              />
            )}
          </li>
        ))}
      </ul>
      <p className="vat-small-print">{say('vat:pause.later')}</p>
    </Card>
  );
}

function PauseItem({
  item,
  record,
  telling,
  onReady,
  onUnready,
  onReads,
}: {
  readonly item: ReadyItem;
  readonly record: BatchRecord;
  readonly telling: Telling;
  readonly onReady: (item: ReadyItem) => void;
  /** Takes a tick back. */
  readonly onUnready: (eventId: string) => void;
  readonly onReads: (item: ReadyItem) => void;
}): ReactNode {
  const { say, write } = useReader();
  const noted = record.prepared.findLast((one) => one.item === item.id);
  const isDone = noted !== undefined;
  const act = (): void => {
    if (item.reads !== null) onReads(item);
    else if (noted === undefined) onReady(item);
    else onUnready(noted.eventId);
  };
  const figure = item.reads !== null && noted?.value !== undefined ? write.temperature(noted.value).text : item.figure;
  const advice =
    item.reads === null || noted?.value === undefined ? null : iceWaterAdvice({ readsC: noted.value, telling });
  return (
    <>
      <VatButton className="pause-item" aria-pressed={isDone} onAct={act}>
        <span className="pause-tick" aria-hidden="true">
          {isDone ? <Tick /> : null}
        </span>
        <span className="pause-text">
          {item.text}
          {item.caution === null ? null : <span className="pause-caution">{item.caution}</span>}
        </span>
        {figure === null ? (
          item.reads !== null && !isDone ? (
            <span className="pause-figure pause-blank">___</span>
          ) : null
        ) : (
          <span className="pause-figure numerals pair">{figure}</span>
        )}
      </VatButton>
      {noted?.value === undefined ? null : (
        <p className="pause-advice">
          {advice?.text ?? say('vat:ready.iceRight', { reads: write.number(noted.value, 1) })}
        </p>
      )}
    </>
  );
}

function Tick(): ReactNode {
  return (
    <svg
      viewBox="0 0 24 24"
      width="24"
      height="24"
      fill="none"
      stroke="currentColor"
      strokeWidth="3"
      strokeLinecap="round"
    >
      <path d="M4 13l5 5L20 6" />
    </svg>
  );
}
