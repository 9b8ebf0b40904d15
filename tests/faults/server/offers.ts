import type { EventDraft } from '../../../src/records/index.ts';

/** What was offered and answered so far, as it was heard from outside. */
export function makeOffers() {
  const acknowledged = new Set<string>();
  const pairs: string[][] = [];
  let open: EventDraft[][] = [];
  let offered = 0;
  let acknowledgedTwice = 0;
  const offer = (drafts: EventDraft[]) => {
    offered += drafts.length;
    open.push(drafts);
    if (drafts.length > 1) pairs.push(drafts.map(({ id }) => id));
  };
  return {
    offer,
    open: () => open,
    /** Enters what each process said in a round; resolves to what failed, one sentence each. */
    enter(said: readonly (readonly string[])[]): string[] {
      const failed: string[] = [];
      const kept = new Map<string, number>();
      for (const line of said.flat()) {
        const [word = '', ...rest] = line.split(' ');
        if (word === 'failed') failed.push(`the writer failed: ${rest.join(' ')}`);
        if (word === 'offer') offer(JSON.parse(rest.join(' ')) as EventDraft[]);
        if (word === 'kept') for (const id of rest) kept.set(id, (kept.get(id) ?? 0) + 1);
      }
      for (const [id, times] of kept) {
        acknowledged.add(id);
        if (times > 1) acknowledgedTwice++;
      }
      open = open.filter((drafts) => drafts.some(({ id }) => !acknowledged.has(id)));
      return failed;
    },
    /** Holds the ids of the log against what was offered and answered. */
    compare(ids: readonly string[]) {
      const there = new Set(ids);
      return {
        doubled: ids.length - there.size,
        lost: [...acknowledged].filter((id) => !there.has(id)).length,
        torn: pairs.filter((pair) => new Set(pair.map((id) => there.has(id))).size > 1).length,
        answersLost: open.flat().filter(({ id }) => there.has(id)),
      };
    },
    counts: () => ({ offered, acknowledged: acknowledged.size, acknowledgedTwice }),
  };
}
