import { expect } from 'vitest';
import type { Page } from 'playwright-core';
import type { Hand } from '../tasks/hand.ts';
import { POTS } from './pots.ts';

/** A screen, and how to come to it from the one before in this list. */
export interface Screen {
  readonly name: string;
  /** The address, where it is not the one before. */
  readonly path?: string;
  readonly to?: (hand: Hand) => Promise<void>;
  /** Once this is there, the screen is. */
  readonly shows: string;
  /** Beside the vat the rules are stricter. */
  readonly isVat?: boolean;
}

const escape = async ({ page }: Hand): Promise<void> => {
  await page.keyboard.press('Escape');
  await page.clock.fastForward(500);
};
/** The screen, and then its forecast. */
async function forecastThere(page: Page): Promise<void> {
  await page.locator('.vat-until, .pots-next li').first().waitFor({ timeout: 60_000 });
  await page.getByText(/The forecasts? (is|are) being worked out/).first().waitFor({ state: 'detached', timeout: 60_000 }); // prettier-ignore
}

/** Goes on to a screen inside the page, as a link would: nothing is loaded anew. */
export async function goOnTo(hand: Hand, { path, to, shows }: Screen): Promise<void> {
  const { page } = hand;
  if (path !== undefined) await page.evaluate((address) => history.pushState(null, '', address), path);
  await to?.(hand);
  await page.locator(shows).first().waitFor({ timeout: 60_000 });
}

const BESIDE_VAT: readonly Screen[] = [
  { name: 'vat', path: '/vat/ash', shows: '.vat-until', to: ({ page }) => forecastThere(page) },
  { name: 'pad, coarse', shows: '.pad-blocks', to: (hand) => hand.tap('Note a reading') },
  { name: 'pad, fine', shows: '.pad-tile.pad-word', to: (hand) => hand.tap('pH 6.4_') },
  { name: 'pad, typed', shows: '.pad-field', to: (hand) => hand.tap('type it') },
  {
    name: 'something is wrong',
    shows: '.wrong-causes',
    to: async (hand) => {
      await escape(hand);
      await hand.page.locator('.pad-blocks').waitFor();
      await expect.poll(async () => (await escape(hand), hand.page.locator('.pad').count()), { timeout: 10_000 }).toBe(0); // prettier-ignore
      await hand.tap('Something is wrong');
    },
  },
  {
    name: 'wrong, told',
    shows: '.told-questions',
    to: async (hand) => {
      await hand.tap('All causes');
      await hand.tap('Too hot');
    },
  },
  {
    name: 'choices',
    shows: '.choices[aria-busy=false] > .choice',
    to: async (hand) => {
      await expect.poll(async () => (await escape(hand), hand.page.locator('.wrong').count()), { timeout: 10_000 }).toBe(0); // prettier-ignore
      await hand.tap('Something is wrong');
      await hand.tap('Nothing wrong: show me choices');
    },
  },
  {
    name: 'whole make',
    shows: '.whole .timeline',
    to: async (hand) => {
      await expect.poll(async () => (await escape(hand), hand.page.locator('.vat-actions').count()), { timeout: 10_000 }).toBe(1); // prettier-ignore
      await hand.tap('Whole make');
    },
  },
  { name: 'what if', shows: '.whatif-figure', to: (hand) => hand.tap('What if') },
  { name: 'judge', path: '/vat/birch', shows: '.judge-tiles', to: (hand) => hand.tap('Test it') },
  { name: 'get ready', path: '/vat/elm', shows: '.pause-item' },
  { name: 'finish', path: '/vat/cedar', shows: '.finish, .vat[data-stage=finishing]' },
  { name: 'pots', path: '/pots', shows: '.pots-next li', to: ({ page }) => forecastThere(page) },
];

/** Every screen there is, once; the pots on the server are those of `seedPots`. */
export const SCREENS: readonly Screen[] = [
  { name: 'today', path: '/', shows: `.today-pots > li:nth-child(${POTS.length})` },
  { name: 'this device', shows: 'dialog[open]', to: (hand) => hand.tap('This device') },
  ...BESIDE_VAT.map((screen) => ({ ...screen, isVat: true })),
  { name: 'wall', path: '/pots/wall', shows: '.wall-next li' },
  { name: 'plan', path: '/plan', shows: '.start-line-time' },
  { name: 'record', path: '/record/cedar', shows: '.record' },
  { name: 'compare', path: '/record/cedar/compare', shows: '.compare' },
  { name: 'labels', path: '/record/cedar/labels', shows: '.labels-preview' },
  { name: 'instruments', path: '/record/ash/instruments', shows: '.instruments' },
  { name: 'gauge', path: '/gauge?cut=12', shows: '.gauge' },
  { name: 'bench', path: '/bench', shows: '.bench-groups' },
  { name: 'a sum', path: '/bench/rennet', shows: '.answer-number, .answer-words' },
  { name: 'cup test', path: '/bench/rennet-test', shows: '.cup-steps' },
  { name: 'stores', path: '/bench/lots', shows: '.lots' },
  { name: 'makes', path: '/makes', shows: '.makes-row' },
  { name: 'a make', path: '/makes/stretched-ball', shows: '.make-page-head' },
  {
    name: 'changing a make',
    path: '/makes/stretched-ball/change',
    shows: '.change-form',
    to: (hand) => hand.tap(/^16\s*Keep warm/),
  },
  { name: 'buying', path: '/plan/buying', shows: '.buying-row' },
  { name: 'day', path: '/day', shows: '.day-answer' },
  { name: 'ageing', path: '/ageing', shows: '.round-line' },
  { name: 'a cheese', shows: '.piece-acts', to: (hand) => hand.follow('Board cheese 1') },
  { name: 'what grows on it', shows: '.growth-look', to: (hand) => hand.tap('What grows on it?') },
  { name: 'a new cheese', path: '/ageing/new', shows: 'h1' },
  { name: 'brine', path: '/brine', shows: '.brine-strength' },
  { name: 'paper', path: '/paper', shows: '.paper-records li' },
  { name: 'a sheet', path: '/paper/cedar/home', shows: '.paper-desk .paper' },
  { name: 'share', path: '/share/stretched-ball', shows: '.share-ways' },
  { name: 'take in', path: '/share', shows: '.share' },
  { name: 'sharing', path: '/sharing', shows: '.sharing > p, .sharing-command' },
  { name: 'pair', path: '/pair', shows: '.pair-keys' },
  { name: 'write up', path: '/record/cedar/write-up', shows: '.write-up' },
];
