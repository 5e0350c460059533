import { ENVIRONMENTAL_SENSING, readTemperature, TEMPERATURE } from '../../../exchange/probe/temperature-characteristic.ts'; // prettier-ignore
import { isNothingPicked, type Ears, type Instrument } from './instrument.ts';

/** As much of Web Bluetooth as is used here; the language's own library does not know it. */
interface CharacteristicLike extends EventTarget {
  readonly value?: DataView | null;
  startNotifications(): Promise<unknown>;
  stopNotifications(): Promise<unknown>;
}
interface ServerLike {
  getPrimaryService(service: number): Promise<{ getCharacteristic(characteristic: number): Promise<CharacteristicLike> }>; // prettier-ignore
  disconnect(): void;
}
interface DeviceLike extends EventTarget {
  readonly name?: string | null;
  readonly gatt?: { connect(): Promise<ServerLike> } | null;
}
interface BluetoothLike {
  requestDevice(options: {
    readonly filters: readonly { readonly services: readonly number[] }[];
  }): Promise<DeviceLike>;
}
type BluetoothNavigator = Navigator & { readonly bluetooth?: BluetoothLike };

const bluetoothOf = (browser: BluetoothNavigator): BluetoothLike | undefined => browser.bluetooth;

export const hasBluetooth = (): boolean => bluetoothOf(navigator) !== undefined;

/** Lets a person pick a thermometer that speaks Environmental Sensing; null where none is picked. */
export async function pickBluetooth(): Promise<Instrument | null> {
  const bluetooth = bluetoothOf(navigator);
  if (bluetooth === undefined) return null;
  try {
    const device = await bluetooth.requestDevice({ filters: [{ services: [ENVIRONMENTAL_SENSING] }] });
    const name = (device.name ?? '').trim().slice(0, 40);
    return { id: name === '' ? 'Bluetooth probe' : `Bluetooth probe ${name}`, listen: (ears) => listen(device, ears) };
  } catch (error) {
    if (isNothingPicked(error)) return null;
    throw error;
  }
}

async function listen(device: DeviceLike, ears: Ears): Promise<() => Promise<void>> {
  const server = await device.gatt?.connect();
  if (server === undefined) throw new TypeError('the device cannot be connected to');
  const service = await server.getPrimaryService(ENVIRONMENTAL_SENSING);
  const characteristic = await service.getCharacteristic(TEMPERATURE);
  const told = (): void => {
    const value = characteristic.value == null ? null : readTemperature(characteristic.value);
    if (value !== null) ears.heard({ quantity: 'temperatureC', value });
  };
  const lost = (): void => ears.lost();
  characteristic.addEventListener('characteristicvaluechanged', told);
  device.addEventListener('gattserverdisconnected', lost);
  await characteristic.startNotifications();
  return async () => {
    characteristic.removeEventListener('characteristicvaluechanged', told);
    device.removeEventListener('gattserverdisconnected', lost);
    await characteristic.stopNotifications().catch(() => undefined);
    server.disconnect();
  };
}
