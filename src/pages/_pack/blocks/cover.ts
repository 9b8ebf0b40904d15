import { timeIn } from '../../../words/index.ts';
import type { Speaker } from '../../../words/say.ts';
import type { PackContent } from '../content.ts';
import type { Block } from './block.ts';

/** An instant in words, in UTC. */
export const sayInstant = (at: string, say: Speaker): string =>
  say('story.when', { day: say.day(at), time: timeIn(say.language, at) });

/** The cautions that stand on everything that says who may do what. */
export const sayCaution = (say: Speaker): string =>
  [say('frame.caution.result'), say('frame.caution.first')].join(' ');

/** What the document is, of whom, as of when, and what it is not. */
export function sayCover(content: PackContent, say: Speaker): Block[] {
  const { benches, choice, instant, log, made, organisation, people } = content;
  const leaves = people.flatMap((person) => person.leaves);
  const sheets = people.flatMap((person) => person.sheets);
  const unproved = [...leaves, ...sheets].filter(({ proof }) => !proof.ok).length;
  const whom =
    choice.people.length === 0
      ? say.count('pack.doc.whom.everyone', people.length)
      : say.count('pack.doc.whom.chosen', people.length);
  return [
    { kind: 'heading', level: 1, words: say('pack.doc.title') },
    { kind: 'text', weight: 'strong', words: say('proof.kind') },
    ...(content.invented
      ? [{ kind: 'notice' as const, words: `${say('proof.demo.word')}. ${say('proof.demo')}` }]
      : []),
    ...(content.altered > 0
      ? [{ kind: 'notice' as const, words: say.count('people.altered', content.altered) }]
      : []),
    ...(unproved > 0
      ? [{ kind: 'notice' as const, words: say.count('pack.doc.unproved', unproved) }]
      : []),
    {
      kind: 'facts',
      caption: say('pack.doc.about'),
      rows: [
        [say('pack.doc.employer'), organisation],
        [say('pack.doc.as-of'), say.day(content.asOf)],
        [say('pack.doc.moment'), sayInstant(instant, say)],
        [say('pack.doc.whom'), whom],
        [
          say('pack.doc.machines'),
          benches.map(({ asset, title }) => `${title}, ${asset}`).join('; ') ||
            say('pack.doc.machines.none'),
        ],
        [
          say('pack.doc.holds'),
          say('pack.doc.holds.is', { leaves: leaves.length, sheets: sheets.length }),
        ],
        [say('pack.doc.made'), sayInstant(made, say)],
        [say('pack.doc.log'), say('pack.doc.log.is', { size: log.size })],
      ],
    },
    { kind: 'text', words: sayCaution(say) },
    { kind: 'heading', level: 2, words: say('pack.doc.can') },
    { kind: 'list', items: [say('pack.doc.can.1'), say('pack.doc.can.2'), say('pack.doc.can.3')] },
    { kind: 'heading', level: 2, words: say('pack.doc.cannot') },
    {
      kind: 'list',
      items: [say('pack.doc.cannot.1'), say('pack.doc.cannot.2'), say('pack.doc.cannot.3')],
    },
  ];
}
