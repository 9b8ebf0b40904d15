import { fromBase64 } from '../../../records/check/index.ts';
import {
  fillPlaces,
  isLanguage,
  LANGUAGE_IDS,
  LANGUAGES,
  type Language,
  sayAgain,
} from '../../../words/index.ts';
import { makeNode } from '../view/make-node.ts';
import { mountVerifier } from '../view/mount-verifier.ts';
import type { VerifyWords } from '../words.ts';

/*
 * The whole script of the file that stands alone. It brings its words in every language along, packed, since
 * it has nobody to ask.
 */

type Sheet = Readonly<Record<string, string>>;
type Spoken = { readonly panel: Sheet; readonly checks: Sheet; readonly names: Sheet };
type Catalogue = Readonly<Record<Language, Spoken>>;
type Packed = { readonly words: Catalogue; readonly style: string };

/** Words of each language and style as JSON, gzipped, in base 64; put in when the file is built. */
declare const PACKED: string;

async function unpack(): Promise<Packed> {
  const packed = new Blob([fromBase64(PACKED) ?? new Uint8Array(0)]);
  const open = packed.stream().pipeThrough(new DecompressionStream('gzip'));
  return (await new Response(open).json()) as Packed;
}

function wordsIn(language: Language, catalogue: Catalogue): VerifyWords {
  const { checks, names, panel } = catalogue[language];
  return {
    language,
    say: (key, put) => fillPlaces(panel[key] ?? key, put),
    sayCheck: (sentence) =>
      sayAgain(catalogue.en.checks, sentence, {
        language,
        say: (key, put) => fillPlaces(checks[key] ?? key, put),
      }),
    name: (key) => names[key] ?? key,
  };
}

function drawLanguages(current: Language, choose: (language: Language) => void): HTMLElement {
  const buttons = LANGUAGE_IDS.map((language) => {
    const button = makeNode(
      'button',
      {
        class: 'button',
        type: 'button',
        lang: language,
        'aria-pressed': String(language === current),
      },
      LANGUAGES[language].name,
    );
    button.addEventListener('click', () => choose(language));
    return button;
  });
  return makeNode('p', { class: 'actions verify-screen' }, ...buttons);
}

async function show(language: Language, catalogue: Catalogue): Promise<void> {
  const words = wordsIn(language, catalogue);
  const { dataset } = document.documentElement;
  document.documentElement.lang = language;
  document.documentElement.dir = LANGUAGES[language].direction;
  document.title = words.say('alone.title');
  const root = makeNode('div');
  const suggested = dataset['suggested'] ?? '';
  await mountVerifier(root, words, suggested === '' ? null : suggested);
  document.querySelector('main')?.replaceChildren(
    drawLanguages(language, (chosen) => void show(chosen, catalogue)),
    makeNode('h1', {}, words.say('alone.title')),
    makeNode('p', {}, words.say('alone.lead')),
    makeNode('p', {}, words.say('alone.caution')),
    root,
  );
}

const [first = 'en'] = navigator.language.toLowerCase().split('-');
void unpack().then(async ({ style, words }) => {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(style);
  document.adoptedStyleSheets = [sheet];
  await show(isLanguage(first) ? first : 'en', words);
});
