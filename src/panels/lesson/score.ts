import { readRight } from './progress.ts';

const say = (right: number, all: number): string =>
  right === all
    ? `All ${all} questions answered right on this device.`
    : `${right} of ${all} questions answered right on this device.`;

/** Under the lesson: how many of its questions have been answered right, once there is one. */
export function showLessonScore(lesson: HTMLElement, id: string): void {
  const line = lesson.querySelector<HTMLElement>('[data-score]');
  if (line === null) return;
  const right = readRight(id);
  const asked = [...lesson.querySelectorAll<HTMLElement>('form[data-question]')];
  const done = asked.filter((form) => right.has(form.dataset['question'] ?? '')).length;
  line.textContent = done === 0 ? '' : say(done, asked.length);
}

/** In the list of lessons. */
export function showListScores(): void {
  for (const line of document.querySelectorAll<HTMLElement>('[data-score-of]')) {
    const done = readRight(line.dataset['scoreOf'] ?? '').size;
    const all = Number(line.dataset['questions']);
    if (done > 0) line.textContent = say(Math.min(done, all), all);
  }
}
