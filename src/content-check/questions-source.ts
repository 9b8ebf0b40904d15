import { QuestionFileSchema } from '../components/lesson/lesson-schema.ts';
import type { Flaw, Said } from './flaw.ts';
import { readWithSchema, readYamlSource } from './yaml-source.ts';

/** One answer a reader may give, with what it teaches. */
export type AskedAnswer = {
  readonly text: string;
  readonly why: string;
  readonly right: boolean;
  readonly line: number;
};

/** A question as its writer wrote it, whatever else is wrong with the file. */
export type AskedQuestion = {
  readonly id: string;
  readonly kind: string;
  readonly line: number;
  readonly because: string;
  readonly answers: readonly AskedAnswer[];
  /** every text a reader meets, in the order of the file */
  readonly said: readonly Said[];
  /** all fields, for what only one kind has */
  readonly fields: Readonly<Record<string, unknown>>;
  readonly lineOf: (key: string) => number;
};

export type QuestionsSource = {
  readonly id: string;
  readonly language: string;
  readonly file: string;
  readonly questions: readonly AskedQuestion[];
  readonly flaws: readonly Flaw[];
};

type Fields = Readonly<Record<string, unknown>>;
export const isRecord = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const asText = (value: unknown): string => (typeof value === 'string' ? value : '');
const asList = (value: unknown): readonly unknown[] => (Array.isArray(value) ? value : []);

/** Where the answers of each kind are listed, and which fields of one are read. */
const LISTS = ['options', 'steps', 'pairs'] as const;
const TEXTS = ['text', 'left', 'right', 'why'] as const;

export function readQuestionsSource(
  where: { readonly id: string; readonly language: string; readonly file: string },
  text: string,
): QuestionsSource {
  const source = readYamlSource(where.file, text);
  const { flaws } = readWithSchema(source, QuestionFileSchema);
  const list = isRecord(source.value) ? asList(source.value['questions']) : [];
  const questions = list.filter(isRecord).map((fields, i): AskedQuestion => {
    const at = (...path: PropertyKey[]) => source.lineOf(['questions', i, ...path]);
    const say = (value: unknown, ...path: PropertyKey[]): Said[] =>
      typeof value === 'string' ? [{ file: where.file, line: at(...path), text: value }] : [];
    const listed = LISTS.flatMap((name) =>
      asList(fields[name])
        .filter(isRecord)
        .map((answer, k) => ({ name, answer, k })),
    );
    return {
      id: asText(fields['id']),
      kind: asText(fields['kind']),
      line: at('id'),
      because: asText(fields['because']),
      answers: listed.map(({ name, answer, k }) => ({
        text: asText(answer['text']) || `${asText(answer['left'])}: ${asText(answer['right'])}`,
        why: asText(answer['why']),
        right: answer['right'] === true,
        line: at(name, k),
      })),
      said: [
        ...say(fields['ask'], 'ask'),
        ...listed.flatMap(({ name, answer, k }) =>
          TEXTS.flatMap((key) => say(answer[key], name, k, key)),
        ),
        ...say(fields['because'], 'because'),
        ...(isRecord(fields['drawing'])
          ? ['title', 'alt'].flatMap((key) =>
              say((fields['drawing'] as Fields)[key], 'drawing', key),
            )
          : []),
      ],
      fields,
      lineOf: (key) => at(key),
    };
  });
  return { ...where, questions, flaws };
}
