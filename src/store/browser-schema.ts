import type { DBSchema, IDBPDatabase, IDBPTransaction } from 'idb';
import type { ClockOffset } from '../record/clock-offset.ts';
import type { Event } from '../record/event.ts';
import type { DeviceState } from '../record/new-event.ts';
import type { StreamState } from './port.ts';

/** The tables of a browser's store, and what stands in them. */

export type Placed = { readonly id: string; readonly streamId: string; readonly n: number; readonly event: Event };

/** An event that a server would not take, kept with the reason. */
export interface SetAside {
  readonly id: string;
  readonly reason: string;
}

/**
 * The device's own counter and clock; how far that clock is from the server's once it was measured; which store of a server its
 * cursors and mark are of.
 */
export type KeptDevice = DeviceState & {
  readonly clockOffset?: ClockOffset;
  readonly pulledMark?: number;
  readonly serverStore?: string;
};

export interface Schema extends DBSchema {
  /** Key: position, counted up by the database. */
  events: { key: number; value: Placed; indexes: { byId: string; byStream: [string, number] } };
  streams: { key: string; value: StreamState };
  /** Key: event id. Own events that no server has acknowledged yet; `position` keeps their order. */
  outbox: { key: string; value: { readonly id: string; readonly position: number }; indexes: { byPosition: number } };
  setAside: { key: string; value: SetAside };
  /** Key: stream id. How far this device has read each stream of the server. */
  cursors: { key: string; value: { readonly streamId: string; readonly n: number } };
  device: { key: string; value: KeptDevice };
}

export const FORMAT = 1;
export const STORES = ['events', 'streams', 'outbox', 'setAside', 'cursors', 'device'] as const;
export type Change = IDBPTransaction<Schema, typeof STORES, 'readwrite'>;

/** Makes the tables in a browser that has none yet. */
export function upgrade(database: IDBPDatabase<Schema>, from: number): void {
  if (from >= 1) return;
  const events = database.createObjectStore('events', { autoIncrement: true });
  events.createIndex('byId', 'id', { unique: true });
  events.createIndex('byStream', ['streamId', 'n'], { unique: true });
  database.createObjectStore('streams', { keyPath: 'streamId' });
  database.createObjectStore('outbox', { keyPath: 'id' }).createIndex('byPosition', 'position');
  database.createObjectStore('setAside', { keyPath: 'id' });
  database.createObjectStore('cursors', { keyPath: 'streamId' });
  database.createObjectStore('device');
}
