/** Which family of the yield tables each family of makes keeps fat and casein like. */
import type { Family } from '../make/make.ts';
import type { CheeseFamily } from '../science/yield-families.ts';

/** Families without a row of their own keep like their nearest neighbour; a make's own `fatRecovery` goes before it. */
const KEEPS_LIKE: Readonly<Record<Family, CheeseFamily>> = {
  cheddar: 'cheddar',
  stretched: 'stretched',
  washed: 'washed',
  fresh: 'fresh',
  lactic: 'lactic',
  bloomy: 'bloomy',
  alpine: 'alpine',
  brined: 'brined',
  cottage: 'cottage',
  whey: 'whey',
  'heat-acid': 'fresh', // our own choice: fat is caught in the curd as in fresh cheese; whey protein apart
  'cultured-milk': 'lactic', // our own choice; nothing is drained, or as from a lactic gel
  'boiled-whey': 'whey', // our own choice; nothing is drained
  hard: 'alpine', // our own choice: finer grains and a higher cook lose as much
  blue: 'bloomy', // our own choice: soft rennet curd, little worked
  smear: 'bloomy', // our own choice, as blue
  tomme: 'washed', // our own choice: small grains, gently warmed and pressed
};

/** The family of the yield tables for a make. */
export const yieldFamilyOf = (family: Family): CheeseFamily => KEEPS_LIKE[family];
