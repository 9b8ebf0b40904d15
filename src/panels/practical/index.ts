import { h, render } from 'preact';
import { learnSheets } from '../../words/spoken.ts';
import { leftHere } from '../signing/index.ts';
import { PracticalSheet } from './practical-sheet.tsx';
import { SHEETS, say, sayDay } from './say.ts';
import type { SheetProps } from './sheet-props.ts';

export type { SheetProps } from './sheet-props.ts';

/** Puts the practical sheet where the page left room for it. */
export async function mountPracticalSheet(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-panel="practical-sheet"]');
  if (place === null) return;
  const props = JSON.parse(place.dataset['props'] ?? '{}') as SheetProps;
  await learnSheets(...SHEETS);
  place.replaceChildren();
  render(h(PracticalSheet, props), place);
}

/** Lists what this trainer left on this device: open sheets, and signed records not yet sent. */
export async function listLeftSheets(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-panel="left-sheets"]');
  const trainer = place?.dataset['trainer'];
  if (place === null || trainer === undefined) return;
  const left = await leftHere(trainer).catch(() => null);
  if (left === null) return;
  await learnSheets('practical-panel');
  const items = [
    ...left.unsent.map((one) => ({ ...one, words: say('left.unsent') })),
    ...left.sheets
      .filter((one) => !left.unsent.some(({ sheetKey }) => sheetKey === one.sheetKey))
      .map((one) => ({ ...one, words: say('left.open', { day: sayDay(one.savedAt) }) })),
  ];
  if (items.length === 0) return;
  const list = place.querySelector('ul');
  for (const { title, path, words } of items) {
    const link = Object.assign(document.createElement('a'), { href: path, textContent: title });
    const item = document.createElement('li');
    item.append(link, `: ${words}.`);
    list?.append(item);
  }
  place.hidden = false;
}
