/**
 * Words that somebody who guesses at this site tries first: those of the site, of the roles and of signing in.
 * To them come the names of the person and the workshop and the e-mail address.
 */
export const SITE_WORDS: readonly string[] =
  `signed saw bench circular table trainer trainee employer workshop admin password passphrase login
welcome secret safety
säge kreissäge tischkreissäge werkstatt betrieb ausbilder lehrling passwort kennwort willkommen geheim`.split(
    /\s+/,
  );

/** Shorter pieces of a name are left out: they would be found in any sentence. */
const SHORTEST_WORD = 3;
/** So many letters must be left beside such words. */
const FEWEST_OTHERS = 5;

/** Letters alone, small and without accents; everything else parts words. */
function wordsOf(text: string): string[] {
  const plain = text.normalize('NFKD').replace(/\p{M}/gu, '').toLowerCase();
  return plain.split(/[^\p{L}]+/u).filter((word) => word.length >= SHORTEST_WORD);
}

/**
 * Whether hardly anything is left of a password once the words anybody would guess here are taken out, with
 * figures and signs between them or not.
 * @param own names and addresses of the person and the workshop
 */
export function isMadeOfOwnWords(password: string, own: readonly string[]): boolean {
  const words = [...SITE_WORDS, ...own].flatMap(wordsOf);
  const longestFirst = [...new Set(words)].sort((a, b) => b.length - a.length);
  const letters = password.normalize('NFKD').replace(/\P{L}/gu, '').toLowerCase();
  const others = longestFirst.reduce((rest, word) => rest.replaceAll(word, ' '), letters);
  const found = others !== letters;
  return found && others.replaceAll(' ', '').length < FEWEST_OTHERS;
}
