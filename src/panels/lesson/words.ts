import english from '../../../content/messages/en/lesson-panel.json';
import { sayFrom } from '../../words/spoken.ts';

/** The sentences of the questions in a lesson. */
export const say = sayFrom('lesson-panel', english);
