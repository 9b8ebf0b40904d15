export { MoveProblem } from './move-problem.ts';
export { type Moved, type MoveOrder, moveStore } from './move-store.ts';
