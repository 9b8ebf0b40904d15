import checkWords from '../../../content/messages/en/checks.json' with { type: 'json' };
import nameWords from '../../../content/messages/en/names.json' with { type: 'json' };
import english from '../../../content/messages/en/practical-panel.json' with { type: 'json' };
import problemWords from '../../../content/messages/en/sheet-problems.json' with { type: 'json' };
import statementWords from '../../../content/messages/en/statement.json' with { type: 'json' };
import { sayTold, type Told } from '../../competence/sheet/index.ts';
import { dayIn, figuresIn, sayAgain } from '../../words/index.ts';
import { nameIn, pageLanguage, sayFrom } from '../../words/spoken.ts';

/** The sheets this panel speaks from: learned before it is mounted. */
export const SHEETS = [
  'practical-panel',
  'statement',
  'sheet-problems',
  'signing',
  'checks',
  'limit-titles',
  'names',
  'rule-sets',
];

export const say = sayFrom('practical-panel', english);
/** words about a signed statement, the same as on its page */
export const sayStatement = sayFrom('statement', statementWords);

const sayProblemWord = sayFrom('sheet-problems', problemWords);
const sayCheckWord = sayFrom('checks', checkWords);

/** A day in the words of the page. */
export const sayDay = (day: string): string => dayIn(pageLanguage(), day);
/** Figures written with a point, as the page writes them. */
export const figures = (text: string): string => figuresIn(pageLanguage(), text);

const sayName = sayFrom('names', nameWords);
/** What a limit asks, the longest form first: `at least 3 mm and at most 8 mm`. */
const ASKS = {
  'asks.both': nameWords['asks.both'],
  'asks.at-least': nameWords['asks.at-least'],
  'asks.at-most': nameWords['asks.at-most'],
  'asks.more-than': nameWords['asks.more-than'],
  'asks.less-than': nameWords['asks.less-than'],
};
export const sayAsks = (asks: string): string =>
  figures(sayAgain(ASKS, asks, { language: pageLanguage(), say: sayName }));

/** A set of limits by its name in the language of the page. */
export const sayLimitSet = ({ id, title }: { id: string; title: string }): string =>
  nameIn('rule-sets', `title.${id}`, title);

/** What stands in the way of a sheet, as a sentence in the language of the page. */
export const sayProblem = (told: Told): string =>
  figures(sayTold(told, { wordOf: sayProblemWord, dayOf: sayDay }));

/** Why the code that checks a record would not sign, which speaks English by itself. */
export const sayRefusal = (sentence: string): string =>
  sayAgain(checkWords, sentence, { language: pageLanguage(), say: sayCheckWord });

/** What is in English wherever the page is not: units, sources, what is signed. */
export const contentLang = (): 'en' | undefined => (pageLanguage() === 'en' ? undefined : 'en');
