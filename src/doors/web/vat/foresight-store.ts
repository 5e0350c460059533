import { openDB, type DBSchema, type IDBPDatabase } from 'idb';
import type { Forecast } from '../../../forecast/forecast.ts';

/** What was foreseen of a batch when its card was last on this device. */
export interface KeptForesight {
  readonly forecast: Forecast;
  readonly planned: Forecast | null;
  readonly before: Forecast | null;
}

export interface Written extends KeptForesight {
  readonly streamId: string;
  /** Program, record and plan that it was foreseen by and for. */
  readonly version: string;
  /** Milliseconds UTC. */
  readonly writtenAt: number;
}

/** The forecast comes anew every two minutes; what was foreseen at earlier moments hardly ever, and is written by itself. */
export type Running = Omit<Written, 'planned' | 'before'>;
export type Earlier = Omit<Written, 'forecast'>;

interface Schema extends DBSchema {
  foresights: { key: string; value: Running | Earlier };
}

/** Where what was foreseen at earlier moments of a batch lies. */
export const earlierOf = (streamId: string): string => `${streamId} earlier`;

const DATABASE = 'vatside-foresights';
const FORMAT = 1;

let opening: Promise<IDBPDatabase<Schema>> | null = null;

/** Where foresights are kept on this device, opened once: by the page to read, by its worker to write. Fails where the browser keeps nothing. */
export const opened = (): Promise<IDBPDatabase<Schema>> =>
  (opening ??= openDB<Schema>(DATABASE, FORMAT, {
    upgrade: (db) => void db.createObjectStore('foresights', { keyPath: 'streamId' }),
  }));
