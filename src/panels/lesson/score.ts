import english from '../../../content/messages/en/progress.json' with { type: 'json' };
import { readCourse } from '../../assessment/review/index.ts';
import { sayFrom } from '../../words/spoken.ts';
import { readLearnt } from './book/index.ts';

const say = sayFrom('progress', english);

/** How many questions of a lesson have been right, in words; nothing before there is one. */
export function sayScore(right: number, asked: number): string {
  if (right === 0) return '';
  return right === asked
    ? say('score.all', { count: asked })
    : say.count('score', asked, { right });
}

/** Under the lesson: how many of its questions have been answered right, once there is one. */
export function showLessonScore(lesson: HTMLElement, id: string): void {
  const line = lesson.querySelector<HTMLElement>('[data-score]');
  if (line === null) return;
  const forms = [...lesson.querySelectorAll<HTMLElement>('form[data-question]')];
  const asks = forms.map((form) => form.dataset['question'] ?? '');
  const here = { id, after: [], who: 'trainee', asks, tasks: [] } as const;
  const progress = readCourse([here], readLearnt()).get(id);
  line.textContent = progress ? sayScore(progress.right, progress.asked) : '';
}
