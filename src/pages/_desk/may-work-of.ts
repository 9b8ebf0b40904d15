import { type MayWork, mayWork } from '../../competence/index.ts';
import { eventsOf } from './events-of.ts';
import type { Workshop } from './workshop.ts';

/** Whether one person may do one kind of work on one machine, by the record. */
export function mayWorkOf(
  workshop: Workshop,
  question: {
    readonly person: string;
    readonly bench: string;
    readonly work: string;
    readonly at: string;
  },
): MayWork {
  const { nameOf, units } = workshop;
  return mayWork({ ...question, events: eventsOf(workshop, question.person), units, nameOf });
}
