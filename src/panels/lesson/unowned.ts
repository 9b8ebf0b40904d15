import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import { sayFrom } from '../../words/spoken.ts';
import { declineUnowned, findUnowned, joinUnowned } from './book/index.ts';

const say = sayFrom('progress', english);

/** Asks whose the answers are that were given before anybody signed in, where a page has room to ask. */
export function startUnowned(): void {
  const box = document.querySelector<HTMLElement>('[data-unowned]');
  if (box === null) return;
  const show = (): void => {
    const { length } = findUnowned();
    box.hidden = length === 0;
    const line = box.querySelector('[data-unowned-line]');
    if (length > 0 && line !== null) line.textContent = say.count('unowned', length);
  };
  const answer = (name: string, act: () => unknown): void => {
    box.querySelector(`[data-unowned-${name}]`)?.addEventListener('click', () => {
      void act();
      // the question is gone: the hand goes on with the page
      document.querySelector<HTMLElement>('#main')?.focus();
    });
  };
  answer('yes', joinUnowned);
  answer('no', declineUnowned);
  show();
  document.addEventListener('learnt', show);
}
