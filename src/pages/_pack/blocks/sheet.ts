import { INSTRUMENTS } from '../../../bench/index.ts';
import { sayMeasured, saySmall } from '../../../competence/sheet/index.ts';
import type { Statement } from '../../../records/index.ts';
import type { Speaker } from '../../../words/say.ts';
import type { PackContent, PackSheet } from '../content.ts';
import { type Block, inEnglish, type Words } from './block.ts';
import { sayInstant } from './cover.ts';
import { sayProof } from './leave.ts';

/** A record holds the English name of the instrument. */
function sayInstrument(instrument: string, say: Speaker): string {
  const known = Object.values(INSTRUMENTS).find(({ title }) => title === instrument);
  return known === undefined ? instrument : say(`statement.instrument.${known.id}`);
}

const sayCriteria = ({ criteria }: Statement, say: Speaker): Block => ({
  kind: 'table',
  caption: say('statement.seen'),
  head: [say('statement.col.criterion'), say('statement.col.seen')],
  rows: criteria.map(({ note, result, text }) => [
    inEnglish(
      note === undefined ? text : `${text} ${say('statement.note', { note })}`,
      say.language,
    ),
    say(`statement.result.${result}`),
  ]),
  shares: [5, 1],
  names: 'sentence',
});

const saySettings = ({ settings }: Statement, say: Speaker): Block[] =>
  settings.length === 0
    ? []
    : [
        {
          kind: 'table',
          caption: say('statement.measured.against'),
          head: [
            say('statement.col.measure'),
            say('statement.col.value'),
            say('statement.col.with'),
            say('statement.col.verdict.long'),
          ],
          rows: settings.map((one): Words[] => [
            say.maybe(`names.measure.${one.measure}`, one.measure),
            say.figures(sayMeasured(one.value, one.unit)),
            say.figures(
              `${sayInstrument(one.instrument, say)}, ±${saySmall(one.uncertainty, one.unit)}`,
            ),
            `${say(`statement.verdict.${one.verdict}`)}. ${one.limit}: ${one.source}`,
          ]),
          shares: [1.5, 0.8, 1.1, 2.6],
        },
      ];

/** Who signed what, with which key, when by either clock, and what others said of it. */
function sayStory(
  { story }: PackSheet,
  content: PackContent,
  say: Speaker,
): (readonly [string, Words])[] {
  return story.flatMap((line) => {
    if (line.kind === 'signed' || line.altered) return [];
    const who = { who: content.nameOf(line.by) };
    const told = {
      cosigned: () =>
        say(`story.cosigned.${'answer' in line ? line.answer : ''}` as 'story.title', who),
      answered: () =>
        say(`story.answered.${'answer' in line ? line.answer : ''}` as 'story.title', who),
      settled: () =>
        say(`story.settled.${'outcome' in line ? line.outcome : ''}` as 'story.title', who),
      stopped: () => say('story.stopped', who),
      withdrawn: () => say('story.withdrawn', who),
    }[line.kind]();
    // what people said in their own words is not needed to know who is competent
    return [[sayInstant(line.at, say), told] as const];
  });
}

/** One signed practical sheet: who, which unit, which machine, what was seen and measured, and what was signed. */
export function saySheet(
  sheet: PackSheet,
  name: string,
  content: PackContent,
  say: Speaker,
): Block[] {
  const { address, keyId, photos, proof, receivedAt, signedAt, statement, trainer } = sheet;
  const { bench, blade, conditions, limits, material, observedAt, place, unit, work } = statement;
  const set = content.limits.find(({ id }) => id === limits.set);
  const known = content.units.find(({ id }) => id === unit.id);
  const isOther = known !== undefined && known.version !== unit.version;
  const title = say('pack.doc.sheet', { work: say(`names.work.${work}`), asset: bench.asset });
  return [
    { kind: 'heading', level: 3, words: inEnglish(unit.title, say.language) },
    {
      kind: 'facts',
      caption: title,
      code: { address, alt: say('proof.code', { address }) },
      rows: [
        [say('statement.person'), name],
        [
          say('statement.unit'),
          say('pack.doc.unit', { id: unit.id, version: unit.version }) +
            (isOther ? ` ${say('pack.doc.other-version', { version: known.version ?? '' })}` : ''),
        ],
        [
          say('statement.bench'),
          say('statement.bench.is', {
            name: bench.asset,
            class: say.maybe(`statement.class.${bench.class}`, bench.class),
            guard: say(`statement.guard.${bench.guardKind}`),
          }),
        ],
        [say('statement.work'), say(`names.work.${work}`)],
        [say('statement.watched-on'), `${say.day(observedAt)}, ${place}`],
        [say('statement.stock'), material],
        [say('statement.blade'), say.figures(say('statement.blade.is', blade))],
        [
          say('statement.limits'),
          say('statement.limits.titled', { title: set?.title ?? limits.set, ...limits }),
        ],
        [
          say('statement.conditions'),
          conditions.length === 0 ? say('statement.conditions.none') : conditions.join('; '),
        ],
        [
          say('statement.decision'),
          `${say('statement.decision.from', { from: say.day(statement.validFrom ?? ''), until: '' })} ${say('statement.decision.until', { from: '', until: say.day(statement.validUntil ?? '') })}`,
        ],
        [say('statement.watched-by'), say('statement.trainer', { name: trainer })],
        ...(statement.schema === 'statement/1'
          ? []
          : [[say('story.confirmed'), say(`story.confirmed.${statement.confirmed}`)] as const]),
        [say('pack.doc.signed-at'), sayInstant(signedAt, say)],
        [say('pack.doc.received-at'), sayInstant(receivedAt, say)],
        [say('pack.doc.device-key'), keyId],
        ...sayStory(sheet, content, say),
        [say('pack.doc.meaning'), inEnglish(statement.meaning, say.language)],
        [say('pack.doc.proof'), sayProof(proof, say)],
        [say('pack.doc.record'), statement.signoff],
      ],
    },
    sayCriteria(statement, say),
    ...saySettings(statement, say),
    ...photos.map(({ digest, jpeg }): Block => {
      const of =
        statement.schema === 'statement/1'
          ? undefined
          : statement.photos.find((one) => one.digest === digest)?.criterion;
      const criterion = statement.criteria.find(({ id }) => id === of)?.text;
      const alt =
        criterion === undefined
          ? say('story.photo.machine')
          : say('story.photo.criterion', { criterion });
      return { kind: 'photo', jpeg, alt };
    }),
  ];
}
