import { LineCounter, parseDocument } from 'yaml';
import type { z } from 'zod';
import { lineOfField } from '../store/content-files.ts';
import { type Flaw, problem } from './flaw.ts';

/** Keys from the top of a file down to a field: `['questions', 3, 'ask']`. */
export type FieldPath = readonly PropertyKey[];

/** A YAML file as data, with the line each field stands on. */
export type YamlSource = {
  readonly file: string;
  readonly value: unknown;
  /** the line of a field, or of the nearest group around it */
  readonly lineOf: (path: FieldPath) => number;
  /** why it is no YAML; empty when it is */
  readonly flaws: readonly Flaw[];
};

/** @param firstLine the line of the file on which `text` begins, for the head of a lesson */
export function readYamlSource(file: string, text: string, firstLine = 1): YamlSource {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines });
  const inFile = (line: number) => line + firstLine - 1;
  const flaws = document.errors.map((error) =>
    problem(
      file,
      inFile(lines.linePos(error.pos[0]).line),
      `This is no YAML: ${error.message.split('\n')[0]}`,
    ),
  );
  const lineOf = (path: FieldPath): number => inFile(lineOfField(path, document, lines));
  return { file, value: flaws.length > 0 ? null : document.toJS(), lineOf, flaws };
}

/** What a schema says of a file, one problem for each field. */
export function readWithSchema<Value>(
  source: YamlSource,
  schema: z.ZodType<Value>,
): { readonly value: Value | null; readonly flaws: readonly Flaw[] } {
  if (source.flaws.length > 0) return { value: null, flaws: source.flaws };
  const read = schema.safeParse(source.value);
  if (read.success) return { value: read.data, flaws: [] };
  const flaws = read.error.issues.map((issue) => {
    const stray = issue.code === 'unrecognized_keys' ? issue.keys : [];
    const path = stray.length > 0 ? [...issue.path, stray[0] as string] : issue.path;
    const says =
      stray.length > 0
        ? `The field ${stray.join(', ')} is not known here; check its spelling and its place.`
        : `The field ${issue.path.join('.') || 'at the top'} ${issue.message}.`;
    return problem(source.file, source.lineOf(path), says);
  });
  return { value: null, flaws };
}
