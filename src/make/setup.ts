import { z } from 'zod';
import { speciesSchema, treatmentSchema, type Species, type Treatment } from './make.ts';

const lotId = z.string().max(80);

/**
 * "My kit and milk", as the maker answers it: everything but the litres may be left out. Nothing the maker does
 * not know is an error; what is assumed instead is listed and shown, one tap to change.
 */
export const answersSchema = z.strictObject({
  milk: z.strictObject({
    volumeL: z.number(),
    species: speciesSchema.optional(),
    fatPercent: z.number().optional(),
    proteinPercent: z.number().optional(),
    treatment: treatmentSchema.optional(),
    homogenised: z.boolean().optional(),
    pH: z.number().optional(),
    temperatureC: z.number().optional(),
    /** Which milk it is, where several are in the house: `lot:…`, or a name. */
    lot: lotId.optional(),
  }),
  culture: z
    .strictObject({
      form: z.enum(['freeze-dried', 'frozen', 'bulk', 'whey']).optional(),
      /** What one packet is stated to treat. */
      packetTreatsL: z.number().optional(),
      packetMassG: z.number().optional(),
      /** Share of the full dose for this milk; the make's own aim where left out. */
      packetFraction: z.number().optional(),
      bulkPercent: z.number().optional(),
      /** Measured with a spoon (about ±30 %) or weighed. */
      measuredBy: z.enum(['packet', 'scale', 'spoon']).optional(),
      /** Batches of this kitchen made with this lot. */
      batchesWithLot: z.int().min(0).optional(),
      /** Which packet it is, where the record keeps packets: `lot:…`. */
      lot: lotId.optional(),
    })
    .optional(),
  rennet: z
    .strictObject({
      form: z.enum(['liquid', 'powder', 'tablet']).optional(),
      strengthImcuPerMl: z.number().optional(),
      /** Only where a cup test of this bottle found the strength: its own span, nine times in ten. */
      testedSpanImcuPerMl: z.strictObject({ low: z.number(), high: z.number() }).optional(),
      /** Since it was bought, or since the cup test that found its strength. */
      monthsStored: z.number().optional(),
      dropsPerMl: z.number().optional(),
      /** Which bottle it is, where the record keeps bottles: `lot:…`. */
      lot: lotId.optional(),
    })
    .optional(),
  calcium: z
    .strictObject({ has: z.boolean(), solutionPercent: z.number().optional(), lot: lotId.optional() })
    .optional(),
  pot: z
    .strictObject({
      name: z.string().optional(),
      volumeL: z.number().optional(),
      insideMm: z.number().optional(),
      massKg: z.number().optional(),
      burner: z.enum(['small', 'medium', 'large']).optional(),
      heaterW: z.number().optional(),
      lossWPerK: z.number().optional(),
      keptWarm: z.enum(['open', 'lid', 'towels', 'sink', 'oven']).optional(),
    })
    .optional(),
  room: z.strictObject({ temperatureC: z.number() }).optional(),
  instruments: z
    .strictObject({
      pHMeter: z.boolean().optional(),
      thermometerErrorC: z.number().optional(),
      scale: z.boolean().optional(),
    })
    .optional(),
  units: z.enum(['metric', 'us', 'imperial']).optional(),
  forSale: z.boolean().optional(),
  /** Pupils under age at the vat. */
  children: z.boolean().optional(),
  /** What the maker chose of the make, by the id of its free input and in that input's unit (`changes.ts`). */
  changes: z.record(z.string(), z.number()).optional(),
  pieceG: z.number().optional(),
  /** Paths of unusual answers that the maker looked at again and keeps: `milk.temperatureC`. */
  confirmed: z.array(z.string()).optional(),
});
export type Answers = z.infer<typeof answersSchema>;

/** The same facts with every gap filled. */
export interface Setup {
  readonly milk: {
    readonly volumeL: number;
    readonly species: Species;
    readonly fatPercent: number;
    readonly treatment: Treatment;
    readonly homogenised: boolean;
    readonly temperatureC: number;
    readonly proteinPercent?: number;
    readonly pH?: number;
  };
  readonly culture: {
    readonly form: 'freeze-dried' | 'frozen' | 'bulk' | 'whey';
    readonly packetTreatsL: number;
    /** Only where no packet has been read: what those on sale treat. */
    readonly unreadPacketL?: { readonly low: number; readonly high: number };
    readonly packetMassG?: number;
    readonly packetFraction: number;
    readonly bulkPercent?: number;
    readonly measuredBy: 'packet' | 'scale' | 'spoon';
    readonly batchesWithLot: number;
  };
  readonly rennet: {
    readonly form: 'liquid' | 'powder' | 'tablet';
    /** Left out when the bottle does not say. */
    readonly strengthImcuPerMl?: number;
    /** Span of the cup test that found the strength; left out where a label says it. */
    readonly testedSpanImcuPerMl?: { readonly low: number; readonly high: number };
    readonly monthsStored: number;
    readonly dropsPerMl?: number;
  };
  readonly calcium: { readonly has: boolean; readonly solutionPercent: number };
  readonly pot: {
    readonly name: string;
    readonly volumeL: number;
    readonly insideMm: number;
    readonly massKg: number;
    readonly burner: 'small' | 'medium' | 'large';
    readonly heaterW?: number;
    readonly lossWPerK?: number;
    readonly keptWarm: 'open' | 'lid' | 'towels' | 'sink' | 'oven';
  };
  readonly roomC: number;
  readonly pHMeter: boolean;
  readonly scale: boolean;
  readonly thermometerErrorC: number;
  readonly units: 'metric' | 'us' | 'imperial';
  readonly forSale: boolean;
  readonly children: boolean;
  readonly pieceG?: number;
}

/** Something the maker did not say and the plan filled in, or said only as closely as a test tells it. */
export interface Assumption {
  /** Path in `Answers`, so that one tap can change it: `pot.burner`. */
  readonly field: string;
  readonly value: string | number | boolean;
  readonly unit?: string;
  /** Where the value was measured and not assumed outright: nine times in ten it lies here. */
  readonly span?: { readonly low: number; readonly high: number };
  /** How much the finish would narrow if it were known; the largest is the one question worth asking. */
  readonly widens: 'much' | 'some' | 'little';
  readonly source: string;
}
