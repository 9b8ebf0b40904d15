import { expect, it } from 'vitest';
import { sayClocks } from '../../src/components/practical/say-clocks.ts';
import { sayIn } from '../../src/words/say.ts';

const AT = '2026-03-03T09:00:00.000Z';
const after = (minutes: number) => ({
  at: AT,
  received: new Date(Date.parse(AT) + minutes * 60_000).toISOString(),
});
const late = (much: string) =>
  `The site received this ${much} after the time on the device: it waited on the device, or the clock of the device is behind.`;
const ahead = (much: string) =>
  `The clock of the device was at least ${much} ahead of the site's when this was signed.`;

it.each([
  [0, null],
  [5, null],
  [-5, null],
  [5.1, late('5 minutes')],
  [59, late('59 minutes')],
  [119, late('119 minutes')],
  [120, late('2 hours')],
  [2879, late('47 hours')],
  [2880, late('2 days')],
  [-6, ahead('6 minutes')],
  [-180, ahead('3 hours')],
])('says of a record that came %s minutes after it was signed: %s', (minutes, sentence) => {
  expect(sayClocks(after(minutes), sayIn('en'))).toBe(sentence);
});

it('says nothing of times that are none, and says it in German', () => {
  expect(sayClocks({ at: '', received: AT }, sayIn('en'))).toBeNull();
  expect(sayClocks(after(120), sayIn('de'))).toMatch(/^Die Website hat dies 2 Stunden nach/);
});
