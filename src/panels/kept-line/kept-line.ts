import offline from '../../../content/messages/en/offline.json';
import type { Kept } from '../../offline/index.ts';
import { dayIn } from '../../words/index.ts';
import { pageLanguage, sayFrom } from '../../words/spoken.ts';
import {
  canKeep,
  keepNow,
  readChoice,
  readKept,
  removeKept,
  savesData,
  watchKept,
} from '../offline/kept-course.ts';

const say = sayFrom('offline', offline);

type Parts = {
  readonly line: HTMLElement;
  readonly keep: HTMLButtonElement;
  readonly remove: HTMLButtonElement;
};

function partsOf(root: HTMLElement): Parts | null {
  const line = root.querySelector<HTMLElement>('[data-kept-line]');
  const keep = root.querySelector<HTMLButtonElement>('[data-kept-keep]');
  const remove = root.querySelector<HTMLButtonElement>('[data-kept-remove]');
  return line === null || keep === null || remove === null ? null : { line, keep, remove };
}

const kB = (bytes: number): string => String(Math.round(bytes / 1024));

function sayKept(kept: Kept | null): string {
  if (kept === null) {
    if (readChoice() === 'no') return say('line.removed');
    return say(savesData() ? 'line.saves-data' : 'line.not-yet');
  }
  if (kept.at !== null) {
    return say('line.kept', { day: dayIn(pageLanguage(), kept.at), size: kB(kept.bytes) });
  }
  return say('line.keeping', { done: kept.done, all: kept.all });
}

function show({ line, keep, remove }: Parts, kept: Kept | null): void {
  const said = sayKept(kept);
  // the same words again would be read out again
  if (line.textContent !== said) line.textContent = said;
  keep.hidden = kept !== null || (readChoice() !== 'no' && !savesData());
  remove.hidden = kept === null;
}

/** The line that says whether the course can be read without a network here, and the choice about it. */
export async function startKeptLine(): Promise<void> {
  const root = document.querySelector<HTMLElement>('[data-kept]');
  const parts = root === null ? null : partsOf(root);
  if (root === null || parts === null) return;
  root.hidden = false;
  if (!canKeep()) {
    parts.line.textContent = say('line.cannot');
    return;
  }
  watchKept((kept) => show(parts, kept));
  parts.keep.addEventListener('click', () => {
    parts.keep.hidden = true;
    keepNow().catch(() => {
      parts.line.textContent = say('line.refused');
    });
  });
  parts.remove.addEventListener('click', () => void removeKept());
  show(parts, await readKept());
}
