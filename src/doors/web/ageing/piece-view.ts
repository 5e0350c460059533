/** The history of a piece in words. */
import type { Say } from '../../../exchange/words.ts';
import type { Writer } from '../../../exchange/written.ts';
import type { KeptLine } from '../../../record/kept-log.ts';
import type { KeptThings } from '../../../record/kept-things.ts';
import type { PieceRecord } from '../../../record/piece-record.ts';

export interface HistoryLine {
  readonly eventId: string;
  readonly when: string;
  readonly words: string;
  /** Its making and its cutting are no slips of a finger. */
  readonly canUndo: boolean;
}

const FIXED: ReadonlySet<string> = new Set(['pieceMade', 'pieceSplit']);

/** Newest first; what is done the same on the same day by one tap stands once. */
export function historyLines(input: {
  readonly piece: PieceRecord;
  readonly kept: KeptThings;
  readonly say: Say;
  readonly write: Writer;
}): readonly HistoryLine[] {
  const { piece, write } = input;
  return [...piece.lines].reverse().map((line) => ({
    eventId: line.eventId,
    when: write.shortDate(line.at),
    words: wordsOf({ ...input, line }),
    canUndo: !FIXED.has(line.kind),
  }));
}

function wordsOf({ line, kept, say, write }: { readonly line: KeptLine; readonly kept: KeptThings; readonly say: Say; readonly write: Writer }): string {
  const { kind, body } = line;
  const text = (key: string): string => (typeof body[key] === 'string' ? body[key] : '');
  const mass = typeof body['massKg'] === 'number' ? write.kilograms(body['massKg']).text : '';
  switch (kind) {
    case 'pieceWeighed':
      return say('ageing:history.weighed', { mass });
    case 'pieceMade':
      return mass === '' ? say('ageing:history.made') : say('ageing:history.madeAt', { mass });
    case 'pieceMoved':
      return say('ageing:history.moved', { place: kept.places.get(text('place'))?.told?.name ?? '' });
    case 'pieceWaxed':
      return say(`ageing:coat.${text('coat')}`);
    case 'piecePacked':
      return say(`ageing:how.${text('how')}`);
    case 'pieceTasted':
      return say('ageing:history.tasted', { words: text('words'), verdict: text('verdict') === '' ? '' : `${say(`ageing:verdict.${text('verdict')}`)}${text('words') === '' ? '' : '.'}` });
    case 'pieceLooked': {
      if (text('grew') === '') return say('ageing:history.looked');
      return say('ageing:history.grew', { what: say(`ageing:growth.${text('grew')}.name`), did: say(`ageing:growAct.${text('did')}.did`) });
    }
    case 'pieceEnded':
      return say(`ageing:end.${text('way')}`);
    default:
      return say(`ageing:history.${kind}`);
  }
} // prettier-ignore
