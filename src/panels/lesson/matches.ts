import { pageUnit } from '../../words/spoken.ts';

function showUnit(within: ParentNode): void {
  for (const option of within.querySelectorAll<HTMLOptionElement>('.match option[data-mm]')) {
    option.textContent = option.dataset[pageUnit()] ?? option.textContent;
  }
}

/** An option holds plain text alone, so its lengths follow the unit switch here. */
export function startMatches(within: ParentNode): void {
  showUnit(within);
  document.addEventListener('unitchange', () => showUnit(within));
}
