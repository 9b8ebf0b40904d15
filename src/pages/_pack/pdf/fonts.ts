import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';

export type Weight = 'regular' | 'bold';

/** A run of letters that one font has. */
export type Run = { readonly font: FontName; readonly text: string };
export type FontName = `${Weight}-${'latin' | 'extended'}`;

const WEIGHTS = { regular: 400, bold: 700 } as const;
const PARTS = { latin: 'latin', extended: 'latin-ext' } as const;

/** The four files, which are embedded in part: only the letters that are used. */
export const FONT_NAMES: readonly FontName[] = [
  'regular-latin',
  'bold-latin',
  'regular-extended',
  'bold-extended',
];

/** The file of a font, from the package it comes in. */
export function readFont(name: FontName): Buffer {
  const [weight, part] = name.split('-') as [Weight, keyof typeof PARTS];
  const find = createRequire(import.meta.url).resolve;
  const face = 'atkinson-hyperlegible-next';
  return readFileSync(
    find(`@fontsource/${face}/files/${face}-${PARTS[part]}-${WEIGHTS[weight]}-normal.woff`),
  );
}

/** What stands for a letter that no font here has. The files of the pack have the letter itself. */
const MISSING = '?';

/** Text as runs, each in the first font that has its letters. */
export function runsOf(
  text: string,
  weight: Weight,
  hasLetter: (font: FontName, letter: number) => boolean,
): Run[] {
  const runs: { font: FontName; text: string }[] = [];
  for (const letter of text.normalize('NFC')) {
    const code = letter.codePointAt(0) ?? 0;
    const known = (['latin', 'extended'] as const).find((part) =>
      hasLetter(`${weight}-${part}`, code),
    );
    const font: FontName = `${weight}-${known ?? 'latin'}`;
    const shown = known === undefined ? MISSING : letter;
    const last = runs.at(-1);
    // a space between two words of one font goes with them
    if (last !== undefined && last.font === font) last.text += shown;
    else runs.push({ font, text: shown });
  }
  return runs;
}
