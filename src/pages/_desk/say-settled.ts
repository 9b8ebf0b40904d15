import type { Settled } from '../../competence/index.ts';
import { sayAgain } from '../../words/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

const english = sayIn('en');
/** What a limit asks, the longest form first: `at least 3 mm and at most 8 mm`. */
const ASKS = {
  'names.asks.both': english('names.asks.both'),
  'names.asks.at-least': english('names.asks.at-least'),
  'names.asks.at-most': english('names.asks.at-most'),
  'names.asks.more-than': english('names.asks.more-than'),
  'names.asks.less-than': english('names.asks.less-than'),
};

/** The measure by its name, where the limit itself has one in English alone. */
const nameMeasure = ({ title, signed }: Settled, say: Speaker): string =>
  say.language === 'en' ? title : say.maybe(`names.measure.${signed.measure}`, title);

/** A reading held against a limit, its words in the language of whoever asked. What is signed stays as it is. */
export const saySettled = (settled: Settled, say: Speaker): Settled => ({
  ...settled,
  title: say.maybe(`limit-titles.${settled.signed.limit}`, nameMeasure(settled, say)),
  asks: say.figures(sayAgain(ASKS, settled.asks, { language: say.language, say })),
});
