import { cutLines, readProbeLine } from '../../../exchange/probe/probe-line.ts';
import { isNothingPicked, type Ears, type Instrument } from './instrument.ts';

/** As much of Web Serial as is used here; the language's own library does not know it. */
interface SerialPortLike {
  readonly readable: ReadableStream<Uint8Array> | null;
  open(options: { readonly baudRate: number }): Promise<void>;
  close(): Promise<void>;
}
interface SerialLike {
  requestPort(): Promise<SerialPortLike>;
}
type SerialNavigator = Navigator & { readonly serial?: SerialLike };

/** What microcontroller boards and meters are set to, the two commonest first. Common practice (no source). */
export const BAUD_RATES = [9600, 115200, 4800, 19200, 38400, 57600] as const;

const serialOf = (browser: SerialNavigator): SerialLike | undefined => browser.serial;

export const hasSerial = (): boolean => serialOf(navigator) !== undefined;

/** Lets a person pick a port; null where none is picked. */
export async function pickSerial(found: {
  readonly baudRate: number;
  readonly bareUnit: 'C' | 'F';
}): Promise<Instrument | null> {
  const serial = serialOf(navigator);
  if (serial === undefined) return null;
  try {
    const port = await serial.requestPort();
    return { id: `serial probe, ${found.baudRate} baud`, listen: (ears) => listen({ port, ...found, ears }) };
  } catch (error) {
    if (isNothingPicked(error)) return null;
    throw error;
  }
}

async function listen(input: {
  readonly port: SerialPortLike;
  readonly baudRate: number;
  readonly bareUnit: 'C' | 'F';
  readonly ears: Ears;
}): Promise<() => Promise<void>> {
  const { port, baudRate, bareUnit, ears } = input;
  await port.open({ baudRate });
  const reader = port.readable?.getReader();
  if (reader === undefined) throw new TypeError('the port cannot be read');
  let isWanted = true;
  const read = async (): Promise<void> => {
    const decoder = new TextDecoder();
    let rest = '';
    try {
      for (;;) {
        const { done, value } = await reader.read();
        if (done) break;
        const cut = cutLines(rest, decoder.decode(value, { stream: true }));
        rest = cut.rest;
        for (const text of cut.lines) {
          const heard = readProbeLine(text, bareUnit);
          heard.forEach(ears.heard);
          if (heard.length === 0 && text.trim() !== '') ears.unread(text);
        }
      }
    } catch {
      // A pulled plug ends the reading with an error; it is told as lost below.
    }
    if (isWanted) ears.lost();
  };
  const reading = read();
  return async () => {
    isWanted = false;
    await reader.cancel().catch(() => undefined);
    await reading;
    reader.releaseLock();
    await port.close().catch(() => undefined);
  };
}
