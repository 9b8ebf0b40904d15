import type { Bench } from '../../src/bench/index.ts';
import type { Crop, DimensionId, PartLabel, View } from '../../src/drawing/index.ts';
import { type DrawingRequest, drawBench } from '../../src/drawing/index.ts';
import { loadBenches } from '../../src/store/content-files.ts';
import { LESSON_IDS, readLesson } from '../content/read-lesson.ts';
import { makeBench } from '../helpers/bench.ts';

/** Every drawing the site shows: those of the lessons as written, and those the pages ask for. */
export type Shipped = {
  readonly name: string;
  readonly bench: Bench;
  readonly request: DrawingRequest;
};

const words = { title: 'A bench', description: 'A bench, drawn for a test.' };

/** What pages ask for, whatever bench they show: the first sheet, the sheet for the wall, proofs, the panel. */
const OF_PAGES: readonly DrawingRequest[] = [
  {
    ...words,
    view: 'side',
    dimensions: ['knife.gapAtTable', 'guard.clearance', 'blade.projection'],
  },
  { ...words, view: 'side', dimensions: ['guard.clearance', 'guard.leadFront', 'guard.leadRear'] },
  { ...words, view: 'side', labels: ['knife', 'guard', 'fingers', 'fence'] },
  {
    ...words,
    view: 'side',
    labels: ['blade', 'teeth', 'knife', 'guard', 'posts', 'fingers', 'fence', 'stock', 'table'],
  },
  { ...words, view: 'knife', dimensions: ['knife.gapAtTable', 'knife.tipDrop'] },
  { ...words, view: 'teeth' },
  { ...words, view: 'end', dimensions: ['blade.kerf', 'blade.plate', 'knife.thickness'] },
  { ...words, view: 'end', dimensions: ['blade.projection', 'fence.face'] },
  {
    ...words,
    view: 'plan',
    dimensions: ['fence.face', 'fence.overrun'],
    labels: ['blade', 'knife', 'fence', 'stock'],
  },
  // a trial cut on its way in, under way, and thrown back over the floor
  { ...words, view: 'side', cut: { lead: -260, strip: null } },
  { ...words, view: 'side', cut: { lead: 20, strip: null } },
  { ...words, view: 'plan', cut: { lead: 120, strip: null } },
  { ...words, view: 'plan', cut: { lead: -400, strip: { from: -2, to: 122 } } },
];

/** The request without what asks for a riving knife or a guard, where none is on the bench. */
function askOf(bench: Bench, request: DrawingRequest): DrawingRequest {
  const off = [
    ...(bench.knife === null ? ['knife'] : []),
    ...(bench.guard === null ? ['guard', 'posts', 'fingers'] : []),
  ];
  const isThere = (id: string) => !off.some((part) => id.startsWith(part));
  return {
    ...request,
    dimensions: request.dimensions?.filter(isThere),
    labels: request.labels?.filter(isThere),
  };
}

export const shippedBenches = (): readonly (readonly [string, Bench])[] => [
  ['test bench', makeBench()],
  ...loadBenches(),
];

export function shippedDrawings(): Shipped[] {
  const ofLessons = LESSON_IDS.flatMap((id): Shipped[] => {
    const { head, parts } = readLesson(id);
    const own = loadBenches().get(head.bench) as Bench;
    return parts
      .filter((part) => part.name === 'Drawing')
      .map(({ attributes }) => ({
        name: `${id}: ${String(attributes['title'])}`,
        bench: own,
        request: {
          view: attributes['view'] as View,
          title: String(attributes['title']),
          description: String(attributes['alt']),
          dimensions: attributes['dimensions'] as DimensionId[] | undefined,
          labels: Object.keys((attributes['labels'] ?? {}) as object) as PartLabel[],
          crop: attributes['crop'] as Crop | undefined,
        },
      }));
  });
  const ofPages = shippedBenches().flatMap(([name, bench]) =>
    OF_PAGES.map((request) => askOf(bench, request)).map(
      (request): Shipped => ({
        name: `${name}, ${request.view}: ${[...(request.dimensions ?? []), ...(request.labels ?? [])].join(' ')}${request.cut ? `cut at ${request.cut.lead}` : ''}`,
        bench,
        request,
      }),
    ),
  );
  return [...ofLessons, ...ofPages];
}

export const drawShipped = ({ bench, request }: Shipped): string => drawBench(bench, request);
