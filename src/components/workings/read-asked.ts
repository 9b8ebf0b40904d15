import { z } from 'zod';
import type { Bench } from '../../bench/index.ts';
import { readLength } from '../../competence/sheet/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';
import {
  CHOICE_IDS,
  CHOICES,
  type ChoiceId,
  FIELD_IDS,
  type FieldId,
  fieldOf,
  ownChoice,
  unitOf,
} from './fields.ts';
import { setBench } from './set-bench.ts';

export type Answers = {
  readonly numbers: Readonly<Record<FieldId, number | null>>;
  readonly choices: Readonly<Record<ChoiceId, string>>;
};

export type FieldProblem = { readonly field: string; readonly message: string };

/** What is asked of the page: as typed, so that the form keeps it, and as read where it could be. */
export type Asked = {
  readonly benchId: string;
  /** the bench as shipped */
  readonly shipped: Bench;
  /** what each field shows */
  readonly typed: Readonly<Record<string, string>>;
  readonly problems: readonly FieldProblem[];
  /** the bench as the reader has set it; null where there is a problem */
  readonly worked: { readonly bench: Bench; readonly answers: Answers } | null;
};

/** The longest figure anybody types. */
const LONGEST = 40;

const asText = (value: number | null): string =>
  value === null ? '' : String(Number(value.toFixed(2)));

function readNumber(text: string): number | null {
  const tidy = text.trim().replace(/\u2212/g, '-');
  // `1,200` may be 1.2 or 1200: refused, not guessed, as a length is
  if (/^-?[1-9]\d{0,2},\d{3}$/.test(tidy)) return null;
  return /^-?(\d+([.,]\d*)?|[.,]\d+)$/.test(tidy) ? Number(tidy.replace(',', '.')) : null;
}

/** A figure of one field from its text; empty only where the field may be. */
function fieldSchema(id: FieldId, bench: Bench, say: Speaker) {
  const field = fieldOf(id);
  const range = field.range(bench);
  const isLength = field.unit === 'mm';
  const put = {
    field: say(`workings.field.${id}`),
    least: say.figures(String(range[0])),
    most: say.figures(String(range[1])),
    unit: unitOf(id, say),
  };
  const must = isLength ? say('workings.problem.length', put) : say('workings.problem.number', put);
  return z.string().transform((text, context): number | null => {
    const refuse = (message: string) => {
      context.addIssue({ code: 'custom', message });
      return z.NEVER;
    };
    if (text.trim() === '' && field.mayBeEmpty) return null;
    if (text.length > LONGEST) return refuse(must);
    if (isLength) {
      const read = readLength(text, 'mm');
      if (!read.ok) return refuse(say('workings.problem.length.typed', put));
      const { mm } = read.length;
      return mm < range[0] || mm > range[1] ? refuse(must) : mm;
    }
    const value = readNumber(text);
    return value === null || value < range[0] || value > range[1] ? refuse(must) : value;
  });
}

function choiceSchema(id: ChoiceId, say: Speaker) {
  const words: readonly string[] = CHOICES[id];
  return z.string().refine((word) => words.includes(word), {
    error: say('workings.problem.word', {
      field: say(`workings.choice.${id}`),
      words: words.join(', '),
    }),
  });
}

const fieldsSchema = (bench: Bench, say: Speaker) =>
  z.object(
    Object.fromEntries(FIELD_IDS.map((id) => [id, fieldSchema(id, bench, say)])) as Record<
      FieldId,
      ReturnType<typeof fieldSchema>
    >,
  );
const choicesSchema = (say: Speaker) =>
  z.object(
    Object.fromEntries(CHOICE_IDS.map((id) => [id, choiceSchema(id, say)])) as Record<
      ChoiceId,
      ReturnType<typeof choiceSchema>
    >,
  );

const problemsOf = (error: z.ZodError | undefined): FieldProblem[] =>
  (error?.issues ?? []).map(({ path, message }) => ({ field: String(path[0]), message }));

/**
 * What a visitor asks, from the address alone. Never throws: each slip is one sentence, and what was
 * typed is shown again. A field that is not in the address has the figure of the bench. Slips are told in
 * English unless a speaker is told.
 */
export function readAsked(
  form: URLSearchParams,
  benches: ReadonlyMap<string, Bench>,
  say: Speaker = sayIn('en'),
): Asked | null {
  const [first] = benches.keys();
  if (first === undefined) return null;
  const wanted = form.get('bench') ?? first;
  const shipped = benches.get(wanted);
  if (shipped === undefined) {
    const message = say('workings.problem.bench', { words: [...benches.keys()].join(', ') });
    const onFirst = new URLSearchParams(form);
    onFirst.set('bench', first);
    return {
      ...(readAsked(onFirst, benches, say) as Asked),
      problems: [{ field: 'bench', message }],
      worked: null,
    };
  }
  const typed = Object.fromEntries([
    ...FIELD_IDS.map((id) => [id, form.get(id) ?? asText(fieldOf(id).own(shipped))]),
    ...CHOICE_IDS.map((id) => [id, form.get(id) ?? ownChoice(shipped, id)]),
  ]) as Record<string, string>;
  const numbers = fieldsSchema(shipped, say).safeParse(typed);
  const choices = choicesSchema(say).safeParse(typed);
  const asked = { benchId: wanted, shipped, typed };
  if (!numbers.success || !choices.success) {
    const problems = [...problemsOf(numbers.error), ...problemsOf(choices.error)];
    return { ...asked, problems, worked: null };
  }
  const answers: Answers = { numbers: numbers.data, choices: choices.data };
  const set = setBench(shipped, answers, say);
  return 'problem' in set
    ? { ...asked, problems: [set.problem], worked: null }
    : { ...asked, problems: [], worked: { bench: set.bench, answers } };
}
