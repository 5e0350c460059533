import type { BrowserContext, Page } from 'playwright-core';

/** Instruments that stand in for real ones: put in place of the browser's own before the page's code runs. */

interface Wire {
  say: (text: string) => void;
  unplug: () => void;
  readonly opened: number[];
}
interface Radio {
  tell: (hundredths: number) => void;
  go: () => void;
}
type Faked = typeof globalThis & { wire: Wire; radio: Radio };

/** A serial port whose lines the test writes; each opening notes its baud rate. */
export async function fakeSerial(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    let bytes: ReadableStreamDefaultController<Uint8Array> | null = null;
    const opened: number[] = [];
    const port = {
      readable: null as ReadableStream<Uint8Array> | null,
      open({ baudRate }: { baudRate: number }) {
        opened.push(baudRate);
        port.readable = new ReadableStream<Uint8Array>({ start: (controller) => void (bytes = controller) });
        return Promise.resolve();
      },
      close: () => Promise.resolve(),
    };
    const wire: Wire = {
      say: (text) => bytes?.enqueue(new TextEncoder().encode(text)),
      unplug: () => bytes?.error(new DOMException('The device has been lost.', 'NetworkError')),
      opened,
    };
    Object.defineProperty(navigator, 'serial', {
      configurable: true,
      value: { requestPort: () => Promise.resolve(port) },
    });
    Object.assign(globalThis, { wire });
  });
}

/** A thermometer with the Environmental Sensing service; asked for any other service or characteristic it refuses. */
export async function fakeBluetooth(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    const characteristic = Object.assign(new EventTarget(), { value: null as DataView | null, startNotifications: () => Promise.resolve(), stopNotifications: () => Promise.resolve() }); // prettier-ignore
    const only = <T>(wanted: number, asked: number, given: T): Promise<T> => (asked === wanted ? Promise.resolve(given) : Promise.reject(new DOMException('not here', 'NotFoundError'))); // prettier-ignore
    const service = { getCharacteristic: (asked: number) => only(0x2a6e, asked, characteristic) };
    const server = { getPrimaryService: (asked: number) => only(0x181a, asked, service), disconnect: () => undefined };
    const device = Object.assign(new EventTarget(), { name: 'Larkenshaw 2', gatt: { connect: () => Promise.resolve(server) } }); // prettier-ignore
    const radio: Radio = {
      tell(hundredths) {
        characteristic.value = new DataView(new ArrayBuffer(2));
        characteristic.value.setInt16(0, hundredths, true);
        characteristic.dispatchEvent(new Event('characteristicvaluechanged'));
      },
      go: () => void device.dispatchEvent(new Event('gattserverdisconnected')),
    };
    Object.defineProperty(navigator, 'bluetooth', { configurable: true, value: { requestDevice: ({ filters }: { filters: { services: number[] }[] }) => only(0x181a, filters[0]?.services[0] ?? 0, device) } }); // prettier-ignore
    Object.assign(globalThis, { radio });
  });
}

/** A browser that reaches no instrument, as many do. */
export async function noInstruments(context: BrowserContext): Promise<void> {
  await context.addInitScript(() => {
    for (const name of ['serial', 'bluetooth']) Object.defineProperty(navigator, name, { configurable: true, value: undefined }); // prettier-ignore
  });
}

export const sayOnWire = (page: Page, text: string): Promise<void> => page.evaluate((said) => (globalThis as Faked).wire.say(said), text); // prettier-ignore
export const unplug = (page: Page): Promise<void> => page.evaluate(() => (globalThis as Faked).wire.unplug());
export const baudRates = (page: Page): Promise<number[]> => page.evaluate(() => (globalThis as Faked).wire.opened);
export const tellByRadio = (page: Page, hundredths: number): Promise<void> => page.evaluate((told) => (globalThis as Faked).radio.tell(told), hundredths); // prettier-ignore
export const goOutOfReach = (page: Page): Promise<void> => page.evaluate(() => (globalThis as Faked).radio.go());
