import { GO, type Order, REST } from './order.ts';
import type { WritingProcess } from './writing-process.ts';

/** What a process does when it is killed. */
export type Phase = 'opening' | 'given' | 'writing';

/** One process of a round: what it is told, and when it is killed, ms into a phase. Null: it lives on. */
export type Part = {
  readonly process: WritingProcess;
  readonly order: Order;
  readonly end: { readonly phase: Phase; readonly lateMs: number } | null;
};

/**
 * Lets the processes write at once, each killed at its time; those that live on then finish what they had begun.
 * Resolves when nobody writes any more.
 */
export async function playRound(parts: readonly Part[]): Promise<void> {
  const ends: Promise<void>[] = [];
  for (const { process, order, end } of parts) {
    process.tell(JSON.stringify(order));
    if (end?.phase === 'opening') ends.push(process.kill(end.lateMs));
  }
  const ready = parts.filter(({ end }) => end?.phase !== 'opening');
  // all begin together, so that what two of them were given is sent at the same moment
  await Promise.all(ready.map(({ process }) => process.hear('open')));
  for (const { process, end } of ready) {
    process.tell(GO);
    if (end?.phase === 'given') ends.push(process.kill(end.lateMs));
    if (end?.phase === 'writing') {
      ends.push(process.hear('writing').then(() => process.kill(end.lateMs)));
    }
  }
  await Promise.all(ends);
  for (const { process, end } of parts) if (end === null) process.tell(REST);
  await Promise.all(parts.map(({ process, end }) => end === null && process.hear('resting')));
}
