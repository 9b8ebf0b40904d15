import type {
  PracticalShown,
  ProvedAuthorisation,
  ProvedPractical,
  ProvedRecord,
} from '../../../records/check/index.ts';
import { dayIn, figuresIn } from '../../../words/index.ts';
import type { VerifyKey, VerifyWords } from '../words.ts';
import { makeNode } from './make-node.ts';

type Row = readonly [VerifyKey, string | null];

function drawFacts(rows: readonly Row[], { say }: VerifyWords): HTMLElement {
  const shown = rows.filter(([, value]) => value !== null && value !== '');
  return makeNode(
    'dl',
    { class: 'facts' },
    ...shown.flatMap(([key, value]) => [
      makeNode('dt', {}, say(key)),
      makeNode('dd', {}, value as string),
    ]),
  );
}

const workNames = (works: readonly string[], { name }: VerifyWords): string =>
  works.map((work) => name(`work.${work}`)).join(', ');

function drawPracticalRecord(record: ProvedPractical, words: VerifyWords): HTMLElement {
  const day = (date: string) => dayIn(words.language, date);
  return drawFacts(
    [
      ['who', record.trainee ?? words.say('not-named')],
      ['unit', record.unit],
      ['work', workNames([record.work], words)],
      ['bench', record.bench],
      ['watched', day(record.observedAt)],
      ['trainer', record.trainer ?? words.say('not-named')],
      ['organisation', record.organisation],
      ['from', day(record.validFrom)],
      ['until', day(record.validUntil)],
    ],
    words,
  );
}

function drawShown(practical: PracticalShown, words: VerifyWords): HTMLElement {
  const { language, name, say } = words;
  const { criteria, observedAt, settings, shown, trainer, unit } = practical;
  const english = language === 'en' ? null : 'en';
  const head = say('practical', {
    day: dayIn(language, observedAt),
    trainer: trainer ?? say('not-named'),
  });
  return makeNode(
    'li',
    {},
    makeNode('strong', { lang: english }, unit),
    makeNode('p', {}, head),
    shown === 'nothing' ? makeNode('p', { class: 'quiet' }, say('shown.nothing')) : null,
    criteria.length === 0
      ? null
      : makeNode(
          'ul',
          {},
          ...criteria.map((one) =>
            makeNode(
              'li',
              {},
              `${say(one.result === 'yes' ? 'result.yes' : 'result.other')} `,
              makeNode('span', { lang: english }, one.text),
            ),
          ),
        ),
    settings.length === 0
      ? null
      : makeNode(
          'ul',
          {},
          ...settings.map((one) =>
            makeNode(
              'li',
              {},
              figuresIn(
                language,
                `${name(`measure.${one.measure}`)}: ${one.value} ${one.unit} (${one.instrument})`,
              ),
            ),
          ),
        ),
  );
}

function drawLeave(record: ProvedAuthorisation, words: VerifyWords): HTMLElement {
  const { language, say } = words;
  const day = (date: string) => dayIn(language, date);
  const { conditions, largest } = record;
  const millimetres = (size: number | null) => (size === null ? null : `${size} mm`);
  return makeNode(
    'div',
    {},
    drawFacts(
      [
        ['who', record.trainee ?? say('not-named')],
        ['work', workNames(record.work, words)],
        ['bench', record.bench],
        ['machine', record.machine],
        ['supervised', record.supervised === 'always' ? say('supervised.always') : null],
        ['thickness', millimetres(largest.thickness)],
        ['length', millimetres(largest.length)],
        ['conditions', conditions.join(' ')],
        ['giver', record.giver ?? say('not-named')],
        ['organisation', record.organisation],
        ['from', day(record.validFrom)],
        ['until', day(record.validUntil)],
      ],
      words,
    ),
    makeNode('h3', {}, say('rests-on')),
    makeNode('ol', {}, ...record.practicals.map((one) => drawShown(one, words))),
  );
}

/** What the record says, for a file found whole and from a trusted signer. */
export const drawRecord = (record: ProvedRecord, words: VerifyWords): HTMLElement =>
  record.kind === 'authorisation' ? drawLeave(record, words) : drawPracticalRecord(record, words);
