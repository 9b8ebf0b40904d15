import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import { sayFrom } from '../../words/spoken.ts';
import { dueNow, readPlaces, sayDue } from '../lesson/course-list.ts';
import { keepUp } from '../lesson/index.ts';
import { startKept } from './kept.ts';
import { askRound, fetchRound, type Stage } from './round.ts';

const say = sayFrom('progress', english);

const part = <Kind extends HTMLElement>(name: string): Kind => {
  const found = document.querySelector<Kind>(`[data-again-${name}]`);
  if (found === null) throw new Error(`The page has no part named ${name}.`);
  return found;
};

/** Questions that are due, asked one after the other. `showLengths` puts lengths into the unit in force. */
export function startAgain(showLengths: Stage['showLengths']): void {
  const places = readPlaces();
  const line = part('line');
  const start = part<HTMLButtonElement>('start');
  const stage: Stage = {
    box: part('box'),
    place: part('place'),
    onward: part<HTMLButtonElement>('onward'),
    showLengths,
  };
  let isAsking = false;
  const show = (result = ''): void => {
    if (isAsking) return;
    const { due, next } = dueNow(places);
    line.textContent = `${result} ${sayDue(due.length, next?.dueAt ?? null)}`.trim();
    start.hidden = due.length === 0;
  };
  const run = async (): Promise<void> => {
    isAsking = true;
    start.hidden = true;
    line.textContent = say('again.fetching');
    const round = await fetchRound(dueNow(places).due);
    line.textContent = round.length === 0 ? say('again.away') : '';
    const right = await askRound(stage, round);
    isAsking = false;
    if (round.length === 0) {
      start.hidden = false;
      return;
    }
    start.textContent = start.dataset['again'] ?? '';
    show(say('again.over', { right, count: round.length }));
    line.focus();
  };
  start.addEventListener('click', () => void run());
  void keepUp(() => {
    show();
    startKept();
    document.addEventListener('learnt', () => show());
  });
}
