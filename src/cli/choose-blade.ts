import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { parse } from 'yaml';
import { ASSUMED_CUT, readBench } from '../bench/index.ts';
import { type BladeChoice, chooseBlade } from '../grading/index.ts';
import { loadLimitSets, loadRacks } from '../store/content-files.ts';
import { BadInput, printable, readText, runCommand } from './read-input.ts';

/**
 * Chooses a blade, and the knife that goes with it, for the job on a bench:
 * `node src/cli/choose-blade.ts BENCH --rack RACK --limits SET[,SET]`.
 * Exit code 0 when some blade fits, 1 when none does, 2 on bad input.
 */
const USAGE = 'Usage: npm run --silent choose -- BENCH --rack RACK --limits SET[,SET] [--json]';
const CONTENT = fileURLToPath(new URL('../../content', import.meta.url));
const LARGEST = 1_000_000;

function readWords(words: readonly string[]) {
  try {
    return parseArgs({
      args: [...words],
      allowPositionals: true,
      options: {
        rack: { type: 'string' },
        limits: { type: 'string' },
        json: { type: 'boolean' },
      },
    });
  } catch (error) {
    throw new BadInput(`${(error as Error).message.split(/[.\n]/)[0]}. ${USAGE}`);
  }
}

function pick<Value>(option: string, id: string | undefined, from: ReadonlyMap<string, Value>) {
  const found = id === undefined ? undefined : from.get(id);
  if (found !== undefined) return found;
  const named = id === undefined ? 'it is missing' : `there is none named "${id}"`;
  throw new BadInput(`--${option} must be one of: ${[...from.keys()].join(', ')}; ${named}.`);
}

function parseBench(text: string) {
  let value: unknown;
  try {
    value = parse(text, { logLevel: 'error', maxAliasCount: 50 });
  } catch {
    throw new BadInput('The bench file is not valid JSON or YAML.');
  }
  const read = readBench(value);
  if (!read.ok) throw new BadInput(`The bench file: ${read.error.message}`);
  return read.bench;
}

function draw({ blade, knife, fits, score, reasons }: BladeChoice, place: number): string {
  const head = fits
    ? `${place}. ${blade.title} (${blade.id}), score ${score.toFixed(0)} of 100, with ${knife?.title ?? 'no knife'}`
    : `-  ${blade.title} (${blade.id}): does not fit`;
  const shown = fits ? reasons : reasons.filter(({ kind }) => kind === 'against');
  return [head, ...shown.map(({ says }) => `     ${says}`)].join('\n');
}

const said = ({ blade, knife, fits, score, reasons, cut }: BladeChoice) => ({
  blade: blade.id,
  knife: knife?.id ?? null,
  fits,
  score,
  reasons,
  cut,
});

await runCommand(async (words) => {
  const { values, positionals } = readWords(words);
  const [file] = positionals;
  if (file === undefined || positionals.length > 1)
    throw new BadInput(`One BENCH must be given. ${USAGE}`);
  const known = loadLimitSets(CONTENT);
  const sets = (values.limits?.split(',') ?? [undefined]).map((id) =>
    pick('limits', id?.trim(), known),
  );
  const rack = pick('rack', values.rack, loadRacks(CONTENT));
  const choices = chooseBlade({ bench: parseBench(await readText(file, LARGEST)), rack, sets });
  if (values.json === true) process.stdout.write(`${JSON.stringify(choices.map(said))}\n`);
  else {
    const lines = choices.map((choice, i) => draw(choice, i + 1));
    process.stdout.write(
      `${lines.join('\n')}\n\nThe ranking is common practice, and power rests on an assumed ${ASSUMED_CUT.specificCutting} N/mm2 of chip. Under ${printable(sets.map(({ title }) => title).join(' + '))}.\n`,
    );
  }
  return choices.some(({ fits }) => fits) ? 0 : 1;
}, 'No blade can be chosen');
