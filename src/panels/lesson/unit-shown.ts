import { formatLength, type LengthUnit } from '../../geometry/index.ts';
import { figuresIn } from '../../words/index.ts';
import { pageLanguage } from '../../words/spoken.ts';

/** The unit the page shows lengths in. */
export const unitShown = (): LengthUnit =>
  document.documentElement.dataset['unit'] === 'inch' ? 'inch' : 'mm';

/** A length as the page writes it. @param digits decimals in millimetres */
export const sayLength = (mm: number, digits: number): string =>
  figuresIn(pageLanguage(), formatLength(Number(mm.toFixed(digits)), unitShown(), digits));
