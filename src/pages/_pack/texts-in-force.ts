import { sha256, toHex } from '../../records/index.ts';
import {
  type ContentText,
  readLessonTexts,
  readLimitTexts,
  readUnitTexts,
} from '../../store/index.ts';
import type { Workshop } from '../_desk/workshop.ts';
import type { PackBench, PackContent, PackPerson, PackText } from './content.ts';

type Asked = {
  readonly people: readonly PackPerson[];
  readonly benches: readonly PackBench[];
  readonly workshop: Workshop;
  readonly contentDir: string;
};

const described = (text: ContentText, title: string, version: string | null): PackText => ({
  ...text,
  title,
  version,
  digest: toHex(sha256(new Uint8Array(text.bytes))),
});

/** The set of common practice: units judge by it whatever set a bench has. */
const PRACTICE = 'practice';

/** Ids of limit sets with those they extend, each once. */
function withBases(ids: readonly string[], { sets }: Workshop): Set<string> {
  const all = new Set<string>();
  const add = (id: string): void => {
    if (all.has(id)) return;
    all.add(id);
    const base = sets.get(id)?.base?.split('@', 1)[0];
    if (base !== undefined) add(base);
  };
  for (const id of ids) add(id);
  return all;
}

const lessonTitle = ({ bytes, id }: ContentText): string =>
  /^title: *(.+)$/m.exec(new TextDecoder().decode(bytes))?.[1]?.trim() ?? id;

/**
 * The limit sets, units and lessons that the records were held against, as the files lie there on the day the
 * pack is made. Each sheet names the version it was signed under.
 */
export function textsOf({
  benches,
  contentDir,
  people,
  workshop,
}: Asked): Pick<PackContent, 'limits' | 'units' | 'lessons'> {
  const sheets = people.flatMap((person) => person.sheets.map(({ statement }) => statement));
  const sets = withBases(
    [PRACTICE, ...benches.map(({ limits }) => limits), ...sheets.map(({ limits }) => limits.set)],
    workshop,
  );
  const work = new Set<string>(benches.flatMap((bench) => bench.work));
  const units = workshop.units.filter(
    (unit) =>
      unit.work.some((one) => work.has(one)) || sheets.some((sheet) => sheet.unit.id === unit.id),
  );
  const unitOf = new Map(units.map((unit) => [unit.id, unit]));
  return {
    limits: readLimitTexts(sets, contentDir).map((text) => {
      const set = workshop.sets.get(text.id);
      return described(text, set?.title ?? text.id, set === undefined ? null : String(set.version));
    }),
    units: readUnitTexts(new Set(unitOf.keys()), contentDir).map((text) => {
      const unit = unitOf.get(text.id);
      return described(text, unit?.title ?? text.id, String(unit?.version ?? ''));
    }),
    lessons: readLessonTexts('en', contentDir).map((text) =>
      described(text, lessonTitle(text), null),
    ),
  };
}
