import { z } from 'zod';
import { isDay, isWork, type Work } from '../../../competence/index.ts';

/** An authorisation as the form has it: everything is text, as it was typed. */
export type AuthorisationForm = {
  readonly id: string;
  readonly person: string;
  readonly bench: string;
  readonly work: readonly string[];
  readonly from: string;
  readonly until: string;
  readonly supervised: string;
  readonly thickness: string;
  readonly length: string;
  readonly conditions: string;
  readonly age: string;
};

const FIELDS = [
  'id',
  'person',
  'bench',
  'from',
  'until',
  'supervised',
  'thickness',
  'length',
  'conditions',
  'age',
] as const;

/** The fields of the form, missing ones empty. */
export function readAuthorisationForm(form: FormData): AuthorisationForm {
  const field = (name: string): string => {
    const value = form.get(name);
    return typeof value === 'string' ? value : '';
  };
  const one = Object.fromEntries(FIELDS.map((name) => [name, field(name)]));
  const work = form.getAll('work').filter((value) => typeof value === 'string');
  return { ...(one as Omit<AuthorisationForm, 'work'>), work };
}

/** mm, of a field that may be left empty; a comma is read as a point. */
const size = (least: number, most: number, key: string) =>
  z
    .string()
    .trim()
    .transform((text) => (text === '' ? null : Number(text.replace(',', '.'))))
    .refine((value) => value === null || (value >= least && value <= most), { error: key });

const day = (key: string) => z.string().refine(isDay, { error: key });

/** Each message is a key of the sheet `authorisation`: the sentence for that field. */
export const AuthorisationFormSchema = z.strictObject({
  id: z.uuidv7({ error: 'bad.id' }),
  person: z.string().min(1, { error: 'bad.person' }),
  bench: z.string().min(1, { error: 'bad.bench' }),
  work: z
    .array(
      z.custom<Work>((value) => typeof value === 'string' && isWork(value)),
      {
        error: 'bad.work',
      },
    )
    .min(1, { error: 'bad.work' })
    .transform((works) => [...new Set(works)]),
  from: day('bad.from'),
  until: day('bad.until'),
  supervised: z.enum(['always', 'as-usual'], { error: 'bad.supervised' }),
  thickness: size(1, 1000, 'bad.thickness'),
  length: size(50, 20_000, 'bad.length'),
  conditions: z
    .string()
    .transform((text) =>
      text
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== ''),
    )
    .refine((lines) => lines.length <= 12 && lines.every((line) => line.length <= 200), {
      error: 'bad.conditions',
    }),
  age: z.enum(['old-enough', 'young-under-supervision', 'too-young'], { error: 'bad.age' }),
});

export type AuthorisationFields = z.output<typeof AuthorisationFormSchema>;
