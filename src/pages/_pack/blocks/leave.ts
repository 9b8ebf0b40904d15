import type { Speaker } from '../../../words/say.ts';
import type { PackLeave, PackProof } from '../content.ts';
import type { Block, Words } from './block.ts';
import { inEnglish } from './block.ts';

/** Whether a record is proved, and where its proof lies. */
export const sayProof = (proof: PackProof, say: Speaker): string =>
  proof.ok
    ? say('pack.doc.proof.is', { verdict: say(`proof.stamp.${proof.verdict}`), path: proof.path })
    : say('pack.doc.proof.none', { why: proof.why });

function sayLargest({ largest }: PackLeave['statement'], say: Speaker): string {
  const { length, thickness } = largest;
  const sizes = { thickness: thickness ?? '', length: length ?? '' };
  if (thickness !== null && length !== null) {
    return say.figures(say('authorisation.sheet.largest.both', sizes));
  }
  if (thickness !== null) return say.figures(say('authorisation.sheet.largest.thickness', sizes));
  return length === null
    ? say('authorisation.sheet.largest.none')
    : say.figures(say('authorisation.sheet.largest.length', sizes));
}

/** One authorisation in writing: what it lets the person do, who gave it, and what it rests on. */
export function sayLeave(leave: PackLeave, name: string, say: Speaker): Block[] {
  const { address, givenAt, giver, proof, statement, status } = leave;
  const { age, bench, by, conditions, from, supervised, until, work } = statement;
  const works = work.map((one) => say(`names.work.${one}`)).join(', ');
  const rows: (readonly [string, Words])[] = [
    [say('authorisation.sheet.person'), name],
    [say('authorisation.sheet.bench'), bench.asset],
    [say('authorisation.sheet.work'), works],
    [
      say('authorisation.sheet.days'),
      say('authorisation.sheet.days.is', { from: say.day(from), until: say.day(until) }),
    ],
    ...(status.until < until
      ? [
          [
            say('pack.doc.until-then'),
            say('authorisation.sheet.until-now', { day: say.day(status.until) }),
          ] as const,
        ]
      : []),
    [say('authorisation.sheet.supervised'), say(`authorisation.new.supervised.${supervised}`)],
    [say('authorisation.sheet.largest'), sayLargest(statement, say)],
    [
      say('authorisation.sheet.conditions'),
      conditions.length === 0 ? say('authorisation.sheet.conditions.none') : conditions.join(' '),
    ],
    [
      say('authorisation.sheet.age'),
      say(`authorisation.sheet.age.${age.answer}`, { rule: age.rule }),
    ],
    [
      say('authorisation.sheet.by'),
      say('authorisation.sheet.by.is', {
        name: giver,
        role: say(`frame.role.${by.role}`),
        day: say.day(givenAt),
      }),
    ],
    [say('authorisation.sheet.basis'), say('pack.doc.basis', { ids: statement.basis.join(', ') })],
    [say('pack.doc.meaning'), inEnglish(statement.meaning, say.language)],
    [say('pack.doc.proof'), sayProof(proof, say)],
    [say('pack.doc.record'), statement.id],
  ];
  return [
    {
      kind: 'heading',
      level: 3,
      words: say('pack.doc.leave', { asset: bench.asset, work: works }),
    },
    {
      kind: 'facts',
      caption: say('pack.doc.leave', { asset: bench.asset, work: works }),
      rows,
      code: { address, alt: say('proof.code', { address }) },
    },
  ];
}
