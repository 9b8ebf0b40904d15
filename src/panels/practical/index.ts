import { h, render } from 'preact';
import { learnSheets } from '../../words/spoken.ts';
import { PracticalApp } from './practical-app.tsx';
import { SHEETS } from './say.ts';

/** Puts the practical sheet where the page left room for it. */
export async function mountPractical(): Promise<void> {
  const place = document.querySelector<HTMLElement>('[data-panel="practical"]');
  if (place === null) return;
  await learnSheets(...SHEETS);
  place.replaceChildren();
  render(h(PracticalApp, {}), place);
}
