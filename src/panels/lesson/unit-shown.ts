import { formatLength } from '../../geometry/index.ts';
import { figuresIn } from '../../words/index.ts';
import { pageLanguage, pageUnit } from '../../words/spoken.ts';

/** A length as the page writes it. @param digits decimals in millimetres */
export const sayLength = (mm: number, digits: number): string =>
  figuresIn(pageLanguage(), formatLength(Number(mm.toFixed(digits)), pageUnit(), digits));
