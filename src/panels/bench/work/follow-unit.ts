import { pageUnit } from '../../../words/spoken.ts';
import { shownUnit } from './words.ts';

/** Lengths follow the page's unit switch: `data-unit` on the page, and its `unitchange` event. */
export function followUnit(): void {
  const read = (): void => {
    shownUnit.value = pageUnit();
  };
  read();
  document.addEventListener('unitchange', read);
}
