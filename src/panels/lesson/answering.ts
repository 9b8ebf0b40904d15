import { startMarks } from './mark.ts';
import { startMatches } from './matches.ts';
import { startOrders } from './order.ts';
import { type Answered, startQuestions } from './questions.ts';

/** Makes every question under `within` answerable, of whatever kind, and tells of each answer. */
export function startAnswering(within: ParentNode, answered: Answered): void {
  startOrders(within);
  startMatches(within);
  startMarks(within);
  startQuestions(within, answered);
}
