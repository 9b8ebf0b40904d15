/** One thing wrong in the content, as one line for its writer. */
export type Flaw = {
  /** from the top of the project, with slashes */
  readonly file: string;
  /** from 1 */
  readonly line: number;
  /** what is wrong and what is allowed */
  readonly says: string;
  /** a note is for the writer to know; a problem must be put right */
  readonly weight: 'problem' | 'note';
};

export const problem = (file: string, line: number, says: string): Flaw => ({
  file,
  line,
  says,
  weight: 'problem',
});

export const note = (file: string, line: number, says: string): Flaw => ({
  ...problem(file, line, says),
  weight: 'note',
});

/** A text a reader meets, and where its writer finds it. */
export type Said = {
  readonly file: string;
  readonly line: number;
  readonly text: string;
};

/** `a, b or c`, for the end of a sentence that says what is allowed. */
export const listWords = (words: readonly string[]): string =>
  words.length < 2
    ? words.join('')
    : `${words.slice(0, -1).join(', ')} or ${words[words.length - 1]}`;
