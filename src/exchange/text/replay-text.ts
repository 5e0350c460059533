/** A replay as a table: when, what was noted, what had been forecast, what came, and whether that was inside. */
import type { Foreseen, Replay } from '../replay.ts';
import type { Say } from '../words.ts';
import type { BothUnits } from './both-units.ts';
import { columns, paragraph, plainSpaces } from './layout.ts';
import { hoursText } from './telling.ts';

interface Telling {
  readonly say: Say;
  readonly both: BothUnits;
  readonly width: number;
}

/** One batch: a line a note, and the count at the end. */
export function replayText({ replay, ...telling }: { readonly replay: Replay } & Telling): string {
  const { say, width } = telling;
  const head = ['at', 'noted', 'forecast', 'came', 'inside'].map((id) => say(`replay:head.${id}`));
  const rows = replay.notes.map((note) => [
    hoursText(note.elapsedMin),
    say(`replay:what.${note.what}`, {
      sample: note.sample === undefined || note.sample === null ? '' : say(`plan-text:sample.${note.sample}`),
    }).trim(),
    forecastText(note, telling),
    cameText(note, telling),
    note.isInside === null ? '' : say(note.isInside ? 'replay:inside' : 'replay:outside'),
  ]);
  const { inside, judged } = replay;
  const lines = [
    say('replay:title', { name: replay.name, make: replay.makeId }),
    ...columns({ rows: [head, ...rows], width, right: [0] }),
    ...paragraph({ text: say('replay:summary', { inside, judged, notes: replay.notes.length }), width }),
  ];
  return `${plainSpaces(lines.join('\n'))}\n`;
}

function forecastText({ band, readyIn20, what }: Foreseen, telling: Telling): string {
  if (readyIn20 !== null) return telling.say('replay:readyIn20', { count: readyIn20 });
  if (band === null) return '';
  const written = (value: number): string => valueText(what, value, telling);
  return telling.say('replay:band', { about: written(band.p50), low: written(band.p5), high: written(band.p95) });
}

const cameText = ({ came, what }: Foreseen, telling: Telling): string =>
  typeof came === 'number' ? valueText(what, came, telling) : telling.say(`replay:grade.${came}`);

function valueText(what: Foreseen['what'], value: number, { both }: Telling): string {
  switch (what) {
    case 'pH':
      return value.toFixed(2);
    case 'temperatureC':
    case 'iceWaterC':
      return both.temperature(value, 1).first;
    case 'massKg':
      return both.mass(value).first;
    case 'wheyL':
      return both.volume(value).first;
    case 'flocculationMin':
      return `${value.toFixed(1)} min`;
    case 'saltG':
      return both.mass(value / 1000).first;
    default:
      return String(value);
  }
}
