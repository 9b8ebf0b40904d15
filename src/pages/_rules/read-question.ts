import { parse, YAMLParseError } from 'yaml';
import { z } from 'zod';
import { type Bench, INSTRUMENTS, type InstrumentId, readBench } from '../../bench/index.ts';
import type { LimitSet } from '../../limits/index.ts';
import { type Speaker, sayIn } from '../../words/say.ts';

/** Longest bench file taken, characters: a whole one is about 2500. */
export const LONGEST_FILE = 60_000;

/** How well the settings of the bench are known: exactly, or as an instrument reads them. */
export const KNOWN_TO = ['exactly', 'rule', 'feeler', 'dial'] as const satisfies readonly (
  | 'exactly'
  | InstrumentId
)[];
export type KnownTo = (typeof KNOWN_TO)[number];

export const uncertaintyOf = (known: KnownTo): number =>
  known === 'exactly' ? 0 : INSTRUMENTS[known].uncertainty;

/** What is asked of the page, as far as it could be read: the form is shown again with it. */
export type Question = {
  /** name of a shipped bench; empty where a file was pasted */
  readonly bench: string;
  /** the pasted file as typed */
  readonly file: string;
  readonly sets: readonly LimitSet[];
  readonly known: KnownTo;
};

export type Asked = {
  readonly question: Question;
  /** the bench to hold against the sets; null where there is a problem */
  readonly subject: { readonly bench: Bench; readonly name: string } | null;
  readonly problem: {
    readonly field: 'bench' | 'file' | 'set' | 'known';
    readonly message: string;
  } | null;
};

const FormSchema = z.object({
  bench: z.string().max(80).optional(),
  file: z.string().max(LONGEST_FILE).optional(),
  set: z.array(z.string().max(80)).max(60),
  known: z.enum(KNOWN_TO).optional(),
});

/** Fields of the address or of a posted form, texts only. */
function fieldsOf(form: URLSearchParams | FormData): unknown {
  const text = (name: string): string | undefined => {
    const value = form.get(name);
    return typeof value === 'string' && value !== '' ? value : undefined;
  };
  return {
    bench: text('bench'),
    file: text('file'),
    set: form.getAll('set').filter((one) => typeof one === 'string'),
    known: text('known'),
  };
}

type Known = {
  readonly sets: ReadonlyMap<string, LimitSet>;
  readonly benches: ReadonlyMap<string, Bench>;
  /** sets shown until others are chosen */
  readonly usual: readonly string[];
  /** says what is wrong with the form; in English unless told */
  readonly say?: Speaker;
};

/** What a visitor asks, from an address or a posted form. Never throws: a slip is one sentence. */
export function readQuestion(form: URLSearchParams | FormData, known: Known): Asked {
  const { say = sayIn('en') } = known;
  const read = FormSchema.safeParse(fieldsOf(form));
  const usual = known.usual.flatMap((id) => known.sets.get(id) ?? []);
  const [first = ''] = known.benches.keys();
  const plain: Question = { bench: first, file: '', sets: usual, known: 'exactly' };
  if (!read.success) {
    const field = read.error.issues[0]?.path[0];
    return refuse(
      plain,
      field === 'file' || field === 'known' || field === 'set' ? field : 'bench',
      {
        file: say('other-rules.problem.file', { most: LONGEST_FILE }),
        known: say('other-rules.problem.known', { known: KNOWN_TO.join(', ') }),
        set: say('other-rules.problem.set'),
        bench: say('other-rules.problem.bench'),
      },
    );
  }
  const { bench = '', file = '', set, known: knownTo = 'exactly' } = read.data;
  const chosen = set.flatMap((id) => known.sets.get(id) ?? []);
  const question: Question = {
    bench: file === '' ? bench || first : '',
    file,
    sets: set.length === 0 ? usual : chosen,
    known: knownTo,
  };
  const unknown = set.find((id) => !known.sets.has(id));
  if (unknown !== undefined) {
    const message = say('other-rules.problem.no-set', {
      name: unknown,
      known: [...known.sets.keys()].join(', '),
    });
    return { question, subject: null, problem: { field: 'set', message } };
  }
  if (question.sets.length < 2) {
    const message = say('other-rules.problem.few');
    return { question, subject: null, problem: { field: 'set', message } };
  }
  return file === '' ? pickBench(question, known, say) : openBench(question, say);
}

function refuse(
  question: Question,
  field: NonNullable<Asked['problem']>['field'],
  messages: Readonly<Record<NonNullable<Asked['problem']>['field'], string>>,
): Asked {
  return { question, subject: null, problem: { field, message: messages[field] } };
}

function pickBench(question: Question, { benches }: Known, say: Speaker): Asked {
  const bench = benches.get(question.bench);
  if (bench === undefined) {
    const message = say('other-rules.problem.no-bench', {
      name: question.bench,
      known: [...benches.keys()].join(', '),
    });
    return { question, subject: null, problem: { field: 'bench', message } };
  }
  return { question, subject: { bench, name: bench.name ?? question.bench }, problem: null };
}

function openBench(question: Question, say: Speaker): Asked {
  let value: unknown;
  try {
    // JSON is read as YAML too: one reader, and its errors name the line
    value = parse(question.file, { prettyErrors: true, maxAliasCount: 50, logLevel: 'error' });
  } catch (error) {
    const line = error instanceof YAMLParseError ? error.linePos?.[0]?.line : undefined;
    const message =
      line === undefined
        ? say('other-rules.problem.unreadable')
        : say('other-rules.problem.unreadable-at', { line });
    return { question, subject: null, problem: { field: 'file', message } };
  }
  const read = readBench(value);
  if (!read.ok) {
    const message = say('other-rules.problem.wrong', { problem: read.error.message });
    return { question, subject: null, problem: { field: 'file', message } };
  }
  const name = read.bench.name ?? say('other-rules.bench.yours');
  return { question, subject: { bench: read.bench, name }, problem: null };
}
