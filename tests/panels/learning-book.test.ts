import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { type Answer, mergeAnswers } from '../../src/assessment/review/index.ts';
import type { KeptLearning } from '../../src/learning/index.ts';
import {
  carryOver,
  declineUnowned,
  eraseKept,
  exchange,
  findUnowned,
  joinUnowned,
  leaveDevice,
  readLearnt,
  readShelf,
  wipeBook,
  writeAnswer,
  writeTask,
} from '../../src/panels/lesson/book/index.ts';
import { FakeStorage } from './fake-storage.ts';

/** The site as far as the book sees it: who is signed in, and what is kept for each. */
class FakeSite {
  who: string | null = null;
  isReachable = true;
  refusesPost = false;
  posts = 0;
  readonly kept = new Map<string, readonly Answer[]>();

  readonly fetch = async (_address: string, init: RequestInit = {}) => {
    if (!this.isReachable) throw new TypeError('no network');
    const { who } = this;
    if (init.method === 'POST') {
      this.posts += 1;
      const body = JSON.parse(String(init.body)) as { person: string; answers: Answer[] };
      if (this.refusesPost) return new Response('{}', { status: 500 });
      if (who === null || body.person !== who) return new Response('{}', { status: 409 });
      if (body.answers.length > 500) return new Response('{}', { status: 400 });
      this.kept.set(who, mergeAnswers(this.kept.get(who) ?? [], body.answers));
    }
    if (init.method === 'DELETE' && who !== null) this.kept.set(who, []);
    const told: KeptLearning | null =
      who === null ? null : { person: who, answers: this.kept.get(who) ?? [], tasks: [] };
    return new Response(JSON.stringify(told));
  };
}

let storage: FakeStorage;
let site: FakeSite;
beforeEach(() => {
  vi.useFakeTimers({ now: new Date('2026-11-28T08:00:00.000Z') });
  storage = new FakeStorage();
  site = new FakeSite();
  vi.stubGlobal('localStorage', storage);
  vi.stubGlobal('fetch', site.fetch);
});
afterEach(() => {
  // a page whose storage was refused holds what it knows: the next page begins anew
  storage.refuses = false;
  wipeBook();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

const later = (minutes: number) => vi.setSystemTime(Date.now() + minutes * 60_000);
const asked = () => readLearnt().answers.map(({ question }) => question);

describe('without an account', () => {
  it('answers are kept on the device, right and wrong, with the time', () => {
    writeAnswer('knife', 'gap', false);
    later(1);
    writeAnswer('knife', 'gap', true);
    expect(readLearnt().answers).toMatchObject([
      { lesson: 'knife', question: 'gap', right: false, at: '2026-11-28T08:00:00.000Z' },
      { lesson: 'knife', question: 'gap', right: true, at: '2026-11-28T08:01:00.000Z' },
    ]);
    writeTask('walk-round');
    writeTask('walk-round');
    expect(readLearnt().tasks).toEqual(['walk-round']);
  });

  it('what an earlier version kept is taken over once', () => {
    storage.setItem('lesson:knife', '{"version":1,"right":["gap","tip",7]}');
    storage.setItem('lesson:blade', 'no json');
    storage.setItem('unit', 'inch');
    carryOver();
    carryOver();
    expect(asked()).toEqual(['gap', 'tip']);
    expect(readLearnt().answers.every(({ right }) => right)).toBe(true);
    expect(storage.getItem('lesson:knife')).toBeNull();
    expect(storage.getItem('unit')).toBe('inch');
  });

  it.each([
    'no json',
    '7',
    'null',
    '{"version":2,"books":{"":{"answers":[["aaaaaaaa","a","b",1,"2026-01-01"]]}}}',
    '{"version":1,"who":7,"books":{"":{"answers":[7,null,["aaaaaaaa","../x","b",1,"2026-01-01"],["aaaaaaaa","a","b",1,"never"],["Ä","a","b",1,"2026-01-01"]],"unsent":[7],"tasks":7}}}',
    '{"version":1,"books":[]}',
  ])('storage that holds %s counts as empty, and can be written again', (text) => {
    storage.setItem('learning', text);
    expect(readLearnt().answers).toEqual([]);
    expect(readShelf().who).toBeNull();
    writeAnswer('knife', 'gap', true);
    expect(asked()).toEqual(['gap']);
  });

  it('where storage is refused, answers last as long as the page', () => {
    storage.refuses = true;
    writeAnswer('knife', 'gap', true);
    writeAnswer('knife', 'tip', true);
    expect(asked()).toEqual(['gap', 'tip']);
    carryOver();
    storage.refuses = false;
    writeAnswer('knife', 'kerf', true);
    expect(asked().sort()).toEqual(['gap', 'kerf', 'tip']);
    expect(storage.getItem('learning')).toContain('kerf');
  });

  it('old answers go first when there are more than a book holds', () => {
    const rows = Array.from({ length: 4100 }, (_, i) => [
      `answer-${i}`,
      'knife',
      `q${i}`,
      1,
      new Date(Date.now() + i * 1000).toISOString(),
    ]);
    storage.setItem('learning', JSON.stringify({ version: 1, books: { '': { answers: rows } } }));
    later(60 * 24);
    writeAnswer('knife', 'newest', true);
    expect(readLearnt().answers).toHaveLength(4000);
    expect(asked().at(-1)).toBe('newest');
    expect(asked()[0]).toBe('q101');
  });
});

describe('signed in', () => {
  it('answers are sent, and two devices agree', async () => {
    site.who = 'mira';
    site.kept.set('mira', [
      {
        id: 'elsewhere',
        lesson: 'blade',
        question: 'kerf',
        right: true,
        at: '2026-11-27T08:00:00.000Z',
      },
    ]);
    await exchange();
    writeAnswer('knife', 'gap', true);
    await exchange();
    expect(asked()).toEqual(['kerf', 'gap']);
    expect(site.kept.get('mira')).toEqual(readLearnt().answers);
    await exchange();
    expect(site.posts).toBe(1);
  });

  it('without a network answers wait, and go on the next visit', async () => {
    site.who = 'mira';
    await exchange();
    site.isReachable = false;
    writeAnswer('knife', 'gap', true);
    await exchange();
    expect(asked()).toEqual(['gap']);
    site.isReachable = true;
    site.refusesPost = true;
    await exchange();
    expect(asked()).toEqual(['gap']);
    site.refusesPost = false;
    await exchange();
    expect(site.kept.get('mira')).toHaveLength(1);
  });

  it('an answer given while others are on their way is not lost', async () => {
    site.who = 'mira';
    await exchange();
    writeAnswer('knife', 'gap', true);
    const under = exchange();
    writeAnswer('knife', 'tip', true);
    await under;
    await exchange();
    expect(
      site.kept
        .get('mira')
        ?.map(({ question }) => question)
        .sort(),
    ).toEqual(['gap', 'tip']);
  });

  it('more answers than one request takes go in turns', async () => {
    site.who = 'mira';
    await exchange();
    for (let i = 0; i < 900; i += 1) writeAnswer('knife', `q${i}`, true);
    await exchange();
    expect(site.kept.get('mira')).toHaveLength(900);
    expect(site.posts).toBe(3);
    expect(asked()).toHaveLength(900);
  });

  it('what was erased elsewhere goes here too', async () => {
    site.who = 'mira';
    await exchange();
    writeAnswer('knife', 'gap', true);
    await exchange();
    site.kept.set('mira', []);
    await exchange();
    expect(asked()).toEqual([]);
  });

  it('erasing takes the answers off the site and the device, sent or not', async () => {
    site.who = 'mira';
    await exchange();
    writeAnswer('knife', 'gap', true);
    await exchange();
    writeAnswer('knife', 'tip', true);
    expect(await eraseKept()).toBe(true);
    expect(asked()).toEqual([]);
    await exchange();
    expect(site.kept.get('mira')).toEqual([]);
    site.isReachable = false;
    writeAnswer('knife', 'gap', true);
    expect(await eraseKept()).toBe(false);
    expect(asked()).toEqual(['gap']);
  });
});

describe('a device that several people use', () => {
  const signIn = async (who: string | null) => {
    site.who = who;
    await exchange();
  };

  it('shows nobody the answers of the one before', async () => {
    await signIn('mira');
    writeAnswer('knife', 'gap', true);
    await exchange();
    leaveDevice();
    expect(asked()).toEqual([]);
    expect(storage.getItem('learning')).not.toContain('gap');
    await signIn('tom');
    expect(asked()).toEqual([]);
    await signIn('mira');
    expect(asked()).toEqual(['gap']);
    expect(site.kept.get('tom')).toBeUndefined();
  });

  it('keeps what could not be sent out of sight until its owner is back', async () => {
    await signIn('mira');
    site.isReachable = false;
    writeAnswer('knife', 'gap', true);
    leaveDevice();
    expect(asked()).toEqual([]);
    site.isReachable = true;
    await signIn('tom');
    expect(asked()).toEqual([]);
    expect(site.kept.get('tom')).toBeUndefined();
    await signIn('mira');
    expect(site.kept.get('mira')).toMatchObject([{ question: 'gap' }]);
  });

  it('notices by itself that nobody, or somebody else, is signed in now', async () => {
    await signIn('mira');
    writeAnswer('knife', 'gap', true);
    await exchange();
    await signIn(null);
    expect(readShelf()).toEqual({ who: null, books: {} });
    await signIn('mira');
    await signIn('tom');
    expect(Object.keys(readShelf().books)).toEqual([]);
  });

  it('joins answers without an owner only when told they are theirs', async () => {
    writeAnswer('knife', 'gap', true);
    writeTask('walk-round');
    expect(findUnowned()).toEqual([]);
    await signIn('mira');
    expect(asked()).toEqual([]);
    expect(findUnowned()).toHaveLength(1);
    await joinUnowned();
    expect(asked()).toEqual(['gap']);
    expect(readLearnt().tasks).toEqual(['walk-round']);
    expect(site.kept.get('mira')).toHaveLength(1);
    expect(findUnowned()).toEqual([]);
    await signIn(null);
    expect(asked()).toEqual([]);
  });

  it('asks no second time about answers that are not theirs, but about new ones', async () => {
    writeAnswer('knife', 'gap', true);
    await signIn('tom');
    declineUnowned();
    expect(findUnowned()).toEqual([]);
    await signIn(null);
    expect(asked()).toEqual(['gap']);
    later(5);
    writeAnswer('knife', 'tip', true);
    await signIn('tom');
    expect(findUnowned().map(({ question }) => question)).toEqual(['tip']);
    expect(site.kept.get('tom')).toBeUndefined();
  });
});
