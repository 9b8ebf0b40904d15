import Papa from 'papaparse';
import { utf8 } from '../../records/index.ts';
import type { Speaker } from '../../words/say.ts';
import type { Block } from './blocks/block.ts';
import { sayCaution } from './blocks/cover.ts';
import { saySheet } from './blocks/sheet.ts';
import type { PackContent, PackText } from './content.ts';
import { writeText } from './write-text.ts';

const table = (rows: readonly (readonly string[])[]): Uint8Array =>
  utf8(
    `\uFEFF${Papa.unparse(
      rows.map((row) => [...row]),
      { escapeFormulae: true, newline: '\r\n' },
    )}\r\n`,
  );

function readFirst(content: PackContent, say: Speaker): Uint8Array {
  const { organisation } = content;
  const day = say.day(content.asOf);
  const hasPhotos = content.choice.photos === 'shown';
  const blocks: Block[] = [
    { kind: 'heading', level: 1, words: say('pack.read.title') },
    ...(content.invented
      ? [{ kind: 'notice' as const, words: `${say('proof.demo.word')}. ${say('proof.demo')}` }]
      : []),
    { kind: 'text', words: say('pack.read.what', { organisation, day }) },
    { kind: 'text', words: sayCaution(say) },
    { kind: 'heading', level: 2, words: say('pack.doc.verify') },
    {
      kind: 'list',
      items: [say('pack.doc.verify.1'), say('pack.doc.verify.2'), say('pack.doc.verify.3')],
    },
    { kind: 'heading', level: 2, words: say('pack.read.files') },
    {
      kind: 'list',
      items: [
        say('pack.read.file.pdf'),
        say('pack.read.file.verifier'),
        say('pack.read.file.signer'),
        say('pack.read.file.proofs'),
        say('pack.read.file.sheets'),
        say('pack.read.file.texts'),
        say('pack.read.file.checkpoints'),
        say('pack.read.file.register'),
        ...(hasPhotos ? [say('pack.read.file.photos')] : []),
        say('pack.read.file.manifest'),
      ],
    },
    { kind: 'heading', level: 2, words: say('pack.doc.cannot') },
    {
      kind: 'list',
      items: [say('pack.doc.cannot.1'), say('pack.doc.cannot.2'), say('pack.doc.cannot.3')],
    },
  ];
  return utf8(writeText(blocks));
}

const trustedSigner = ({ issuer }: PackContent, say: Speaker): Uint8Array =>
  utf8(`# ${say('pack.signer.say')}\n${issuer}\n`);

const register = ({ benches }: PackContent, say: Speaker): Uint8Array =>
  table([
    [
      say('pack.doc.col.mark'),
      say('pack.doc.col.machine'),
      say('pack.doc.col.work'),
      say('pack.doc.col.limits'),
      say('pack.doc.col.service'),
    ],
    ...benches.map(({ asset, limits, service, title, work }) => [
      asset,
      title,
      work.map((one) => say(`names.work.${one}`)).join(', '),
      limits,
      say(`pack.doc.service.${service}`),
    ]),
  ]);

const listOf = (texts: readonly PackText[]): Uint8Array =>
  table([
    ['id', 'file', 'title', 'version', 'sha256'],
    ...texts.map(({ digest, file, id, title, version }) => [
      id,
      file,
      title,
      version ?? '',
      digest,
    ]),
  ]);

/**
 * Every file of the zip but the manifest, by path, in the order they are packed.
 * @param verifier the one file that checks proofs alone
 */
export function filesOf(
  content: PackContent,
  pdf: Uint8Array,
  verifier: string,
  say: Speaker,
): Map<string, Uint8Array> {
  const files = new Map<string, Uint8Array>();
  files.set('READ-FIRST.txt', readFirst(content, say));
  files.set('pack.pdf', pdf);
  files.set('verifier.html', utf8(verifier));
  files.set('trusted-signer.txt', trustedSigner(content, say));
  files.set('register.csv', register(content, say));
  files.set('checkpoints/newest.txt', utf8(content.checkpoint));
  if (content.consistency !== null) {
    files.set('checkpoints/earlier.txt', utf8(content.consistency.earlier));
    files.set('checkpoints/consistency.json', content.consistency.bytes);
  }
  for (const text of content.limits) files.set(`limits/${text.file}`, text.bytes);
  files.set('limits/versions.csv', listOf(content.limits));
  for (const text of content.units) files.set(`units/${text.file}`, text.bytes);
  files.set('units/versions.csv', listOf(content.units));
  files.set('lessons/versions.csv', listOf(content.lessons));
  for (const person of content.people) {
    for (const { proof } of person.leaves) if (proof.ok) files.set(proof.path, proof.bytes);
    for (const sheet of person.sheets) {
      const { photos, proof, statement } = sheet;
      if (proof.ok) files.set(proof.path, proof.bytes);
      const text = writeText(saySheet(sheet, person.name, content, say));
      files.set(`sheets/${statement.signoff}.txt`, utf8(text));
      for (const { digest, jpeg } of photos) files.set(`photos/${digest}.jpg`, jpeg);
    }
  }
  return files;
}
