import type english from '../../../content/messages/en/verify-panel.json';
import type { Language, Put } from '../../words/index.ts';

export type VerifyKey = keyof typeof english;

/** What the panel says its words with: the site's own or, in the file that stands alone, its own. */
export type VerifyWords = {
  readonly language: Language;
  readonly say: (key: VerifyKey, put?: Put) => string;
  /** a sentence of the check in this language */
  readonly sayCheck: (sentence: string) => string;
  /** `work.rip` or `measure.knife.gapMax` in this language; itself where there is no word */
  readonly name: (key: string) => string;
};
