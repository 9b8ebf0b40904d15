import { sayCheck } from '../../../components/practical/say-check.ts';
import { CANNOT_KNOW } from '../../../records/index.ts';
import type { Speaker } from '../../../words/say.ts';
import type { PackContent, PackText } from '../content.ts';
import { type Block, inEnglish } from './block.ts';

const listTexts = (texts: readonly PackText[], caption: string, say: Speaker): Block => ({
  kind: 'table',
  caption,
  head: [say('pack.doc.col.text'), say('pack.doc.col.version'), say('pack.doc.col.digest')],
  rows: texts.map(({ digest, file, title, version }) => [
    inEnglish(`${title} (${file})`, say.language),
    version ?? say('pack.doc.no-version'),
    digest,
  ]),
  shares: [2, 0.7, 2.6],
});

/** The machines of the register. */
const sayRegister = ({ benches }: PackContent, say: Speaker): Block[] => [
  { kind: 'heading', level: 1, words: say('pack.doc.register') },
  {
    kind: 'table',
    caption: say('pack.doc.register'),
    head: [
      say('pack.doc.col.mark'),
      say('pack.doc.col.machine'),
      say('pack.doc.col.work'),
      say('pack.doc.col.limits'),
      say('pack.doc.col.service'),
    ],
    rows: benches.map(({ asset, limits, service, title, work }) => [
      asset,
      title,
      work.map((one) => say(`names.work.${one}`)).join(', '),
      limits,
      say(`pack.doc.service.${service}`),
    ]),
    shares: [0.8, 1.4, 2, 1.2, 1],
  },
];

/** The texts in force, the log, and how all of it is checked without the site. */
export function sayBack(content: PackContent, say: Speaker): Block[] {
  const { checkpoint, consistency, issuer, limits, log, units } = content;
  return [
    { kind: 'page', turned: 'upright' },
    ...sayRegister(content, say),
    { kind: 'heading', level: 1, words: say('pack.doc.texts') },
    { kind: 'text', words: say('pack.doc.texts.say') },
    listTexts(limits, say('pack.doc.limits'), say),
    listTexts(units, say('pack.doc.units'), say),
    { kind: 'heading', level: 1, words: say('pack.doc.checkpoint') },
    { kind: 'text', words: say('pack.doc.checkpoint.say', { size: log.size }) },
    {
      kind: 'facts',
      caption: say('pack.doc.checkpoint'),
      rows: [
        [say('pack.doc.log.name'), log.origin],
        [say('pack.doc.log.size'), String(log.size)],
        [say('pack.doc.log.root'), log.root],
        [say('pack.doc.log.signature'), checkpoint.trim().split('\n').at(-1) ?? ''],
      ],
    },
    {
      kind: 'text',
      words:
        consistency === null
          ? say('pack.doc.earlier.none')
          : say('pack.doc.earlier.is', { size: consistency.size }),
    },
    { kind: 'heading', level: 1, words: say('pack.doc.verify') },
    {
      kind: 'list',
      items: [
        say('pack.doc.verify.1'),
        say('pack.doc.verify.2'),
        say('pack.doc.verify.3'),
        say('pack.doc.verify.4'),
      ],
    },
    { kind: 'facts', caption: say('pack.doc.signer'), rows: [[say('pack.doc.signer'), issuer]] },
    { kind: 'text', words: say('pack.doc.signer.say') },
    { kind: 'heading', level: 2, words: say('proof.cannot-know') },
    { kind: 'list', items: CANNOT_KNOW.map((sentence) => sayCheck(sentence, say)) },
  ];
}
