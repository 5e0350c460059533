/** A copy on the disk, line by line: a file of any size, in the memory of one piece. */
import { open, readFile, stat } from 'node:fs/promises';
import { TextDecoder } from 'node:util';
import { LONGEST_LINE_CHARS, type CopyCounts } from '../../../exchange/copy/copy-format.ts';
import { beginsAsCopy, CopyReader } from '../../../exchange/copy/read-copy.ts';
import { OLD_LOG_FORMAT, parseLogFile } from '../../../exchange/log-file.ts';
import { InputError } from '../../../numbers/validity.ts';
import type { Event } from '../../../record/event.ts';
import { ALL_KINDS } from '../../../record/keeping-events.ts';
import { UsageError } from '../world.ts';
import { nodeSum } from './node-sum.ts';

const PIECE_BYTES = 256 * 1024;
/** No character takes more than three bytes where it counts as one (RFC 3629; four where it counts as two). */
const LONGEST_LINE_BYTES = 3 * LONGEST_LINE_CHARS;
const HEAD_BYTES = 1024; // the first line of a copy is far shorter
/** The older form can only be read whole. Our own choice: more than any device has kept. */
const LARGEST_OLD_BYTES = 256 * 1024 * 1024;

/** What a file is, by how it begins. */
export type FileKind = 'copy' | 'old-log' | 'store' | 'packed' | 'empty' | 'other';

const SQLITE = 'SQLite format 3\u0000';
/** How packed files begin: zip, gzip, xz, 7z, zstd, bzip2; from memory. */
const PACKED = ['504b0304', '504b0506', '1f8b', 'fd377a58', '377abcaf', '28b52ffd', '425a68'];

/** Looks at how a file begins. */
export async function kindOfFile(path: string): Promise<FileKind> {
  const head = await headOf(path);
  if (head.length === 0) return 'empty';
  const text = head.toString('utf8');
  if (text.startsWith(SQLITE)) return 'store';
  if (PACKED.some((start) => head.toString('hex', 0, 4).startsWith(start))) return 'packed';
  if (beginsAsCopy(text)) return 'copy';
  return text.includes(`"${OLD_LOG_FORMAT}"`) ? 'old-log' : 'other';
}

/**
 * The events of a copy, or of the form that copies had before, one after the other.
 * @returns how much was in it, once it is all read
 * @throws InputError with everything that does not fit, by line and field; UsageError for a file that is something else
 */
export async function* readCopyFile(path: string): AsyncGenerator<Event, CopyCounts> {
  const kind = await kindOfFile(path);
  if (kind === 'store') throw new UsageError(`${path} is a backup of a whole store: vatside restore takes it.`);
  if (kind === 'packed') throw new UsageError(`${path} is packed. Unpack it, and give the file that was in it.`);
  if (kind === 'empty') throw new UsageError(`${path} is empty: nothing was written into it. Take another copy.`);
  if (kind === 'old-log') return yield* oldLog(path);
  const reader = new CopyReader({ sum: nodeSum(), kinds: ALL_KINDS });
  for await (const line of linesOf(path)) {
    const event = reader.line(line);
    if (event !== null) yield event;
  }
  return reader.end();
}

async function* oldLog(path: string): AsyncGenerator<Event, CopyCounts> {
  if ((await stat(path)).size > LARGEST_OLD_BYTES) throw new UsageError(`${path} has more than ${LARGEST_OLD_BYTES / 1024 ** 2} MB, and is of the form that can only be read whole. Save the copy anew.`); // prettier-ignore
  const events = parseLogFile(await readFile(path, 'utf8'), ALL_KINDS);
  yield* events;
  return { streams: new Set(events.map(({ streamId }) => streamId)).size, events: events.length };
}

const LINE_END = 0x0a;

/** The lines of a text file; one that does not end is given as far as it is too long already. */
async function* linesOf(path: string): AsyncGenerator<string> {
  const decoder = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true });
  let rest: Uint8Array = new Uint8Array();
  let line = 0;
  const decoded = (bytes: Uint8Array): string => {
    line++;
    try {
      return decoder.decode(bytes);
    } catch {
      throw new InputError([{ code: 'unreadable', field: `line ${line}`, value: '…', expected: 'text in UTF-8', remedy: 'It was cut off or altered on the way: take another copy.' }]); // prettier-ignore
    }
  };
  for await (const piece of piecesOf(path)) {
    const bytes = Buffer.concat([rest, piece]);
    let from = 0;
    for (let end = bytes.indexOf(LINE_END, from); end >= 0; end = bytes.indexOf(LINE_END, from)) {
      yield decoded(bytes.subarray(from, end));
      from = end + 1;
    }
    rest = bytes.subarray(from);
    if (rest.length > LONGEST_LINE_BYTES) break;
  }
  if (rest.length > LONGEST_LINE_BYTES) yield 'x'.repeat(LONGEST_LINE_CHARS + 1);
  else if (rest.length > 0) yield decoded(rest);
}

async function* piecesOf(path: string): AsyncGenerator<Uint8Array> {
  const file = await open(path, 'r');
  try {
    for (;;) {
      const { bytesRead, buffer } = await file.read(Buffer.alloc(PIECE_BYTES), 0, PIECE_BYTES);
      if (bytesRead === 0) return;
      yield buffer.subarray(0, bytesRead);
    }
  } finally {
    await file.close();
  }
}

async function headOf(path: string): Promise<Buffer> {
  const file = await open(path, 'r');
  try {
    const { bytesRead, buffer } = await file.read(Buffer.alloc(HEAD_BYTES), 0, HEAD_BYTES);
    return buffer.subarray(0, bytesRead);
  } finally {
    await file.close();
  }
}
