import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import { sayFrom } from '../../words/spoken.ts';
import { eraseKept, readLearnt, readShelf, wipeBook } from '../lesson/book/index.ts';

const say = sayFrom('progress', english);

/** How many answers are kept, where, and whether some still wait. */
function sayKept(): string {
  const { who, books } = readShelf();
  const { length } = readLearnt().answers;
  if (length === 0) return say('kept.none');
  if (who === null) return say.count('kept.nobody', length);
  const waiting = books[who]?.unsent.length ?? 0;
  const kept = say.count('kept.mine', length);
  return waiting === 0 ? kept : `${kept} ${say.count('kept.unsent', waiting)}`;
}

/** The part of the page that says what is kept and erases it. */
export function startKept(): void {
  const line = document.querySelector<HTMLElement>('[data-kept-line]');
  const told = document.querySelector<HTMLElement>('[data-erase-told]');
  const show = (): void => {
    if (line !== null) line.textContent = sayKept();
  };
  document.querySelector('[data-erase]')?.addEventListener('click', async () => {
    const isOwned = readShelf().who !== null;
    const isDone = isOwned ? await eraseKept() : true;
    if (!isOwned) wipeBook();
    if (told !== null) told.textContent = say(isDone ? 'erase.done' : 'erase.failed');
  });
  show();
  document.addEventListener('learnt', show);
}
