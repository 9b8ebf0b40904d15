import { parseArgs } from 'node:util';

export const USAGE =
  'Usage: npm run --silent grade -- FILE --limits SET[,SET] [--uncertainty MM] [--json] [--lines]; ' +
  'SET is an id or the path of a YAML file. Several sets are also compared.';

export type GradeArguments = {
  /** a path, or `-` for standard input */
  readonly file: string;
  /** ids of sets, or paths of files that hold one */
  readonly sets: readonly string[];
  /** U of the instrument, mm */
  readonly uncertainty: number;
  readonly form: 'table' | 'json' | 'lines';
};

/** A problem with what was asked for or handed in, as one sentence. */
export class InputProblem extends Error {
  override readonly name = 'InputProblem';
}

/** U no measuring tool at a saw bench comes near; more is a slip of the keyboard. */
const LARGEST_UNCERTAINTY = 100;

/** Told from an id by a folder in it or by its ending. */
export const isSetFile = (name: string): boolean => /[/\\]|\.ya?ml$/i.test(name);

/**
 * @param known ids of the limit sets there are
 * @param leftOut why some files hold no set that can be used
 * @returns `help` when only the usage was asked for
 * @throws InputProblem
 */
export function readGradeArguments(
  words: readonly string[],
  known: readonly string[],
  leftOut: readonly string[] = [],
): GradeArguments | 'help' {
  const { values, positionals } = parseWords(words);
  if (values.help === true) return 'help';
  const [file, extra] = positionals;
  if (file === undefined) throw new InputProblem(`FILE must be given. ${USAGE}`);
  if (extra !== undefined) {
    throw new InputProblem(`Only one FILE can be graded at a time; "${extra}" is one too many.`);
  }
  return {
    file,
    sets: readSets(values.limits, known, leftOut),
    uncertainty: readUncertainty(values.uncertainty),
    form: values.lines === true ? 'lines' : values.json === true ? 'json' : 'table',
  };
}

function parseWords(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        limits: { type: 'string' },
        uncertainty: { type: 'string' },
        json: { type: 'boolean' },
        lines: { type: 'boolean' },
        help: { type: 'boolean', short: 'h' },
      },
    });
  } catch (error) {
    const [reason] = (error as Error).message.split(/[.\n]/);
    throw new InputProblem(`${reason ?? 'The options cannot be read'}. ${USAGE}`);
  }
}

function readSets(
  text: string | undefined,
  known: readonly string[],
  leftOut: readonly string[],
): string[] {
  const choice = `one of: ${known.join(', ')}`;
  if (text === undefined) throw new InputProblem(`--limits must be given, as ${choice}.`);
  const sets = text.split(',').map((id) => id.trim());
  const unknown = sets.find((id) => !known.includes(id) && !isSetFile(id));
  if (unknown !== undefined) {
    const why = leftOut.find((problem) => new RegExp(`\\b${unknown}\\.ya?ml`).test(problem));
    throw new InputProblem(
      why ?? `--limits must be ${choice}; there is no set named "${unknown}".`,
    );
  }
  return [...new Set(sets)];
}

function readUncertainty(text: string | undefined): number {
  if (text === undefined) return 0;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (value >= 0 && value <= LARGEST_UNCERTAINTY) return value;
  throw new InputProblem(
    `--uncertainty must be a number from 0 to ${LARGEST_UNCERTAINTY} mm, not "${text}".`,
  );
}
