import type { Site } from '../../accounts/index.ts';
import type { StoryLine } from '../../components/practical/story-line.ts';
import { saysStop } from '../../records/index.ts';
import type { SignedEvent } from './proof-of.ts';

/** Whether two records are of one practical, watched by one trainer. */
function isBeside(event: SignedEvent, signed: SignedEvent): boolean {
  const [one, other] = [event.body.statement, signed.body.statement];
  if (one.schema === 'statement/1' || other.schema === 'statement/1') return false;
  return event.id !== signed.id && event.by === signed.by && one.practical === other.practical;
}

/** What was said of a signed practical, in the order in which the site entered it. */
export async function storyOf(signed: SignedEvent, { store }: Site): Promise<StoryLine[]> {
  const first: StoryLine = {
    id: signed.id,
    at: signed.received,
    by: signed.by,
    altered: false,
    kind: 'signed',
    decision: signed.body.statement.decision,
  };
  const after = await store.events({
    org: signed.org,
    kinds: [
      'practical.signed',
      'practical.cosigned',
      'practical.answered',
      'appeal.settled',
      'practical.withdrawn',
    ],
    ...(signed.about === null ? {} : { about: signed.about }),
  });
  const appeals = new Set<string>();
  // a stop that was taken back ends nothing
  const taken = new Set(
    after.flatMap(({ event }) =>
      event?.kind === 'practical.withdrawn' ? [event.body.signoff] : [],
    ),
  );
  const lines = after.flatMap(({ event, broken }): StoryLine[] => {
    if (event === null) return [];
    const base = { id: event.id, at: event.received, by: event.by, altered: broken !== null };
    switch (event.kind) {
      case 'practical.signed':
        return isBeside(event, signed) && saysStop(event) && !taken.has(event.id)
          ? // altered or not: what a stop forbade still stands
            [{ ...base, altered: false, kind: 'stopped', words: null }]
          : [];
      case 'practical.cosigned': {
        const { answer, note, signoff } = event.body.statement;
        if (signoff !== signed.id) return [];
        return [{ ...base, kind: 'cosigned', answer, words: note }];
      }
      case 'practical.answered': {
        const { answer, signoff, words } = event.body;
        if (signoff !== signed.id) return [];
        if (answer === 'appeals') appeals.add(event.id);
        return [{ ...base, kind: 'answered', answer, words }];
      }
      case 'appeal.settled': {
        const { appeal, outcome, reason } = event.body;
        return appeals.has(appeal)
          ? [{ ...base, kind: 'settled', appeal, outcome, words: reason }]
          : [];
      }
      default:
        return event.body.signoff === signed.id
          ? [{ ...base, kind: 'withdrawn', words: event.body.reason }]
          : [];
    }
  });
  return [first, ...lines];
}

/** The appeals that nobody has settled, oldest first. */
export const openAppeals = (story: readonly StoryLine[]): StoryLine[] =>
  story.filter(
    (line) =>
      line.kind === 'answered' &&
      line.answer === 'appeals' &&
      !line.altered &&
      !story.some((one) => one.kind === 'settled' && one.appeal === line.id),
  );

/** The other units that were signed from the same practical at the machine. */
export async function unitsBeside(signed: SignedEvent, { store }: Site): Promise<SignedEvent[]> {
  if (signed.body.statement.schema === 'statement/1') return [];
  const about = signed.about === null ? {} : { about: signed.about };
  const all = await store.events({ org: signed.org, kinds: ['practical.signed'], ...about });
  return all.flatMap(({ event }) => (event !== null && isBeside(event, signed) ? [event] : []));
}
