import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { makeEventReader } from '../../src/store/event-reader.ts';
import type { EventRow } from '../../src/store/stored-event.ts';
import { draftInvitation, makeStoreHere, ORG, SLOW, type TempStore, tamper } from './temp-store.ts';

let temp: TempStore;
beforeEach(async () => {
  temp = await makeStoreHere();
}, SLOW);
afterEach(() => temp.remove());

async function rowsOf(count: number): Promise<EventRow[]> {
  for (let one = 0; one < count; one++) await temp.store.append(draftInvitation());
  const rows = await temp.runRaw(
    'select event.*, hash as leaf from event join tree_node on level = 0 and position = seq order by seq',
  );
  return rows as EventRow[];
}

describe('a reader that remembers', () => {
  it('gives the very same answer for the very same row', async () => {
    const [row] = await rowsOf(1);
    const read = makeEventReader();
    if (row === undefined) throw new Error('no row');
    expect(read({ ...row })).toBe(read(row));
  });

  it('reads again whatever differs in any column, and says that it was changed', async () => {
    const [row] = await rowsOf(1);
    const read = makeEventReader();
    if (row === undefined) throw new Error('no row');
    expect(read(row).broken).toBeNull();
    const changed: Partial<EventRow>[] = [
      { json: row.json.replace('trainee', 'trainer') },
      { leaf: '0'.repeat(64) },
      { leaf: null },
      { kind: 'invitation.used' },
      { org: 'org-2' },
      { by: 'person-2' },
      { about: 'person-2' },
      { id: row.id.replace('7', '8') },
    ];
    for (const over of changed) {
      expect(read({ ...row, ...over }).broken, JSON.stringify(over)).not.toBeNull();
      expect(read(row).broken).toBeNull();
    }
  });

  it('forgets the oldest when it holds too much, and keeps the newest', async () => {
    const rows = await rowsOf(4);
    const [first, second, third, fourth] = rows as [EventRow, EventRow, EventRow, EventRow];
    const read = makeEventReader(first.json.length * 2 + 10);
    const before = read(first);
    read(second);
    read(third);
    const kept = read(fourth);
    expect(read(fourth)).toBe(kept);
    expect(read(first)).not.toBe(before);
    expect(read(first)).toEqual(before);
  });

  it('does not hide from the store what was changed on the disk since', async () => {
    const { event } = await temp.store.append(draftInvitation());
    expect((await temp.store.events({ org: ORG }))[0]?.broken).toBeNull();
    await tamper(temp, ["update event set json = replace(json, 'trainee', 'trainer')"]);
    expect((await temp.store.events({ org: ORG }))[0]?.broken).toContain('changed');
    expect((await temp.store.event(event.id))?.broken).toContain('changed');
  });
});
