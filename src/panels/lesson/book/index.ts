export { carryOver } from './carry-over.ts';
export {
  declineUnowned,
  eraseKept,
  exchange,
  findUnowned,
  joinUnowned,
  leaveDevice,
} from './exchange.ts';
export { readShelf } from './shelf.ts';
export { readLearnt, wipeBook, writeAnswer, writeTask } from './write-down.ts';
