import type { Site } from '../accounts/index.ts';
import { FAULT_PARTS, REMEDIES, REMEDY_IDS } from '../limits/index.ts';
import { loadFaultCatalogue } from '../store/content-files.ts';

/** Lists of words to name a fault by: the whole catalogue, the same for every bench. */
export type Choices = {
  readonly parts: readonly { part: string; title: string }[];
  readonly faults: readonly { id: string; part: string; title: string }[];
  readonly remedies: readonly { id: string; title: string }[];
};

export const PART_TITLES: Readonly<Record<(typeof FAULT_PARTS)[number], string>> = {
  blade: 'Blade',
  arbor: 'Spindle',
  knife: 'Riving knife',
  guard: 'Crown guard',
  'under-guard': 'Guard under the table',
  drive: 'Drive',
  extraction: 'Dust extraction',
  fence: 'Fence',
  insert: 'Table insert',
  table: 'Table',
  controls: 'Controls and isolator',
  place: 'The place',
  storage: 'What is stored round the bench',
  stock: 'Stock',
  'push-stick': 'Push stick',
  people: 'People',
};

export function choicesOf(site: Site): Choices {
  const { entries } = loadFaultCatalogue(site.contentDir);
  return {
    parts: FAULT_PARTS.map((part) => ({ part, title: PART_TITLES[part] })),
    faults: entries.map(({ fault: { id, part, title } }) => ({ id, part, title })),
    remedies: REMEDY_IDS.map((id) => ({ id, title: REMEDIES[id].title })),
  };
}
