import { type Bench, isMeasureId } from '../bench/index.ts';
import {
  type Crop,
  drawBench,
  isDimensionId,
  PART_LABELS,
  type PartLabel,
  type View,
} from '../drawing/index.ts';
import { whyNoFigure } from './check-references.ts';
import { listWords } from './flaw.ts';

export const VIEWS: readonly string[] = ['side', 'end', 'plan', 'knife', 'teeth'] satisfies View[];
export const CROPS: readonly string[] = ['whole', 'above-table'] satisfies Crop[];

type Fields = Readonly<Record<string, unknown>>;

const SHORTEST_TITLE = 10;
const SHORTEST_ALT = 60;
const plain = (text: string) =>
  text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, ' ')
    .trim();

/** Words that say nothing of what is drawn. */
const EMPTY = new Set(
  'a an the of in on at to from and or with is are it this that shows show showing drawing picture image view seen side end plan close up bench figure diagram drawn here plot graph curve line'.split(
    ' ',
  ),
);
const FEWEST_FACTS = 6;

/** What is wrong with the name and the description of a picture. @param where said before each, such as `Drawing` */
export function checkDescription({ title, alt }: Fields, where: string): readonly string[] {
  const name = typeof title === 'string' ? title : '';
  const text = typeof alt === 'string' ? alt : '';
  const facts = new Set(
    plain(text)
      .split(' ')
      .filter((word) => !EMPTY.has(word) && !plain(name).split(' ').includes(word)),
  );
  return [
    ...(name.length < SHORTEST_TITLE
      ? [
          `${where}: title has ${name.length} letters; at least ${SHORTEST_TITLE} that say what it is.`,
        ]
      : []),
    ...(text === ''
      ? [
          `${where}: alt is missing; say in words what a person who sees the picture learns from it.`,
        ]
      : plain(text) === plain(name)
        ? [`${where}: alt says the same as the title; say what can be seen.`]
        : text.length < SHORTEST_ALT
          ? [
              `${where}: alt has ${text.length} letters; at least ${SHORTEST_ALT} that give the facts.`,
            ]
          : facts.size < FEWEST_FACTS
            ? [
                `${where}: alt gives no fact beyond the title; say what stands where and what follows.`,
              ]
            : []),
  ];
}

/** What is wrong with a drawing of a bench: its view, its dimensions and its numbered parts. */
export function checkDrawingOf(
  bench: Bench | undefined,
  fields: Fields,
  where: string,
): readonly string[] {
  const { view, crop, dimensions = [], labels = {} } = fields;
  const says: string[] = [];
  if (!VIEWS.includes(String(view))) says.push(`${where}: view must be ${listWords(VIEWS)}.`);
  if (crop !== undefined && !CROPS.includes(String(crop)))
    says.push(`${where}: crop must be ${listWords(CROPS)}.`);
  if (!Array.isArray(dimensions)) says.push(`${where}: dimensions must be a list of names.`);
  const sizes = Array.isArray(dimensions) ? dimensions.map(String) : [];
  const parts = typeof labels === 'object' && labels !== null ? Object.keys(labels) : [];
  const strayParts = parts.filter((part) => !(PART_LABELS as readonly string[]).includes(part));
  for (const part of strayParts)
    says.push(`${where}: no part is named ${part}; there are ${PART_LABELS.join(', ')}.`);
  const straySizes = sizes.filter((size) => !isDimensionId(size));
  for (const size of straySizes)
    says.push(
      `${where}: there is no dimension ${size}; it must be a measure or a size of src/drawing/measures.ts.`,
    );
  if (bench === undefined || says.length > 0) return says;
  const lost = sizes.filter((size) => isMeasureId(size)).map((size) => whyNoFigure(bench, size));
  says.push(...lost.filter((why) => why !== null).map((why) => `${where}: ${why}`));
  return says.length > 0 ? says : missingFrom(bench, fields, { sizes, parts }, where);
}

/** Dimensions and parts that were asked for and are not to be seen in this view of this bench. */
function missingFrom(
  bench: Bench,
  fields: Fields,
  { sizes, parts }: { readonly sizes: readonly string[]; readonly parts: readonly string[] },
  where: string,
): readonly string[] {
  const draw = (dimensions: readonly string[]) =>
    drawBench(bench, {
      view: fields['view'] as View,
      title: '',
      description: '',
      crop: fields['crop'] as Crop | undefined,
      dimensions: dimensions.filter(isDimensionId),
      labels: parts as PartLabel[],
    });
  const count = (svg: string) => svg.split('class="dimension"').length - 1;
  try {
    const whole = draw(sizes);
    const unseen =
      count(whole) < sizes.length ? sizes.filter((size) => count(draw([size])) === 0) : [];
    const unnamed = parts.filter((_part, i) => !whole.includes(`data-number="${i + 1}"`));
    return [
      ...unseen.map(
        (size) => `${where}: ${size} cannot be shown in the view ${fields['view']} of this bench.`,
      ),
      ...unnamed.map(
        (part) =>
          `${where}: ${part} is not to be seen in the view ${fields['view']} of this bench.`,
      ),
    ];
  } catch (error) {
    return [`${where}: it cannot be drawn: ${(error as Error).message}`];
  }
}
