import { describe, expect, it } from 'vitest';
import {
  type Bytes,
  type Checkpoint,
  checkpointText,
  emptyRoot,
  fromBase64,
  importSigningKey,
  logOriginOf,
  noteKeyHash,
  openCheckpoint,
  openNote,
  publicJwkOf,
  readCheckpointText,
  signCheckpoint,
  signNote,
  toBase64Url,
  toHex,
} from '../../src/records/check/index.ts';
import { seedKey } from './sample-log.ts';

/*
 * Key and note of the reference implementation of signed notes, golang.org/x/mod/sumdb/note,
 * documentation example (BSD 3-clause). Key strings are NAME+HASH+base64(type, key).
 */
const GO = {
  name: 'PeterNeumann',
  hash: 'c74f20a3',
  publicKey: (fromBase64('ARpc2QcUPDhMQegwxbzhKqiBfsVkmqq/LDE4izWy10TW') as Bytes).slice(1),
  seed: (fromBase64('AYEKFALVFGyNhPJEMzD1QIDr+Y7hfZx09iUvxdXHKDFz') as Bytes).slice(1),
  text: "If you think cryptography is the answer to your problem,\nthen you don't know what your problem is.\n",
  line: '— PeterNeumann x08go/ZJkuBS9UG/SffcvIAQxVBtiFupLLr8pAcElZInNIuGUgYN1FFYC2pZSNXgKvqfqdngotpRZb6KE6RyyBwJnAM=\n',
};
const goKey = { name: GO.name, publicKey: GO.publicKey };
const goNote = `${GO.text}\n${GO.line}`;

describe('signed notes against the reference implementation', () => {
  it('names the key by the published hash', () => {
    expect(toHex(noteKeyHash(goKey))).toBe(GO.hash);
  });

  it('signs the published note byte for byte', async () => {
    const key = await importSigningKey({ ...publicJwkOf(GO.publicKey), d: toBase64Url(GO.seed) });
    expect(await signNote(GO.text, GO.name, key)).toBe(goNote);
  });

  it('opens the published note', async () => {
    expect(await openNote(goNote, [goKey])).toEqual({ ok: true, text: GO.text, signers: [goKey] });
  });
});

// C2SP signed-note v1.0.0: what a verifier must do
describe('opening a signed note', () => {
  const witness = '— witness.example ////////////////////////////////////////\n';

  it('passes over signers it does not know, before and after the one it does', async () => {
    const opened = await openNote(`${GO.text}\n${witness}${GO.line}${witness}`, [goKey]);
    expect(opened).toMatchObject({ ok: true });
  });

  it.each([
    ['only an unknown signer', `${GO.text}\n${witness}`, 'unknown-signer'],
    ['a changed text', goNote.replace('cryptography', 'Cryptography'), 'bad-signature'],
    ['no blank line', `${GO.text}${GO.line}`, 'malformed'],
    ['no last new line', goNote.slice(0, -1), 'malformed'],
    ['no signature', `${GO.text}\n`, 'malformed'],
    ['a hyphen for the dash', goNote.replace('—', '-'), 'malformed'],
    ['a control character', goNote.replace('think', 'think\t'), 'malformed'],
    ['half a surrogate pair', goNote.replace('think', 'think\ud800'), 'malformed'],
    ['a name with a plus', goNote.replace('— Peter', '— Pe+er'), 'malformed'],
    ['a signature that is not base 64', goNote.replace('nAM=', 'nAM'), 'malformed'],
    ['stray bits in the base 64', goNote.replace('nAM=', 'nAN='), 'malformed'],
    ['sixty-five signatures', `${GO.text}\n${witness.repeat(65)}`, 'malformed'],
  ])('refuses a note with %s', async (_, note, why) => {
    expect(await openNote(note, [goKey])).toEqual({ ok: false, why });
  });

  it('takes at least sixteen signatures', async () => {
    expect(await openNote(`${GO.text}\n${witness.repeat(15)}${GO.line}`, [goKey])).toMatchObject({
      ok: true,
    });
  });

  it('splits at the last blank line, as a text may have its own', async () => {
    const key = await seedKey(3);
    const note = await signNote('first\n\nsecond\n', 'log', key);
    const opened = await openNote(note, [{ name: 'log', publicKey: key.publicKey }]);
    expect(opened).toMatchObject({ ok: true, text: 'first\n\nsecond\n' });
  });

  it.each([
    ['a text with no last new line', 'text', 'name'],
    ['a control character', 'te\rxt\n', 'name'],
    ['a name with a space', 'text\n', 'two words'],
    ['a name with a plus', 'text\n', 'a+b'],
    ['no name', 'text\n', ''],
  ])('does not sign %s', async (_, text, name) => {
    await expect(signNote(text, name, await seedKey(3))).rejects.toThrow(RangeError);
  });
});

describe('checkpoints', () => {
  // C2SP tlog-checkpoint, the example in the text
  const example =
    'example.com/behind-the-sofa\n20852163\nCsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=\n';

  it('reads the example of the standard, and writes it back', () => {
    const read = readCheckpointText(example) as Checkpoint;
    expect(read).toMatchObject({ origin: 'example.com/behind-the-sofa', size: 20_852_163 });
    expect(checkpointText(read)).toBe(example);
  });

  it('allows lines it does not know after the third', () => {
    expect(readCheckpointText(`${example}more\n`)?.size).toBe(20_852_163);
  });

  it.each([
    ['a size with a zero in front', example.replace('20852163', '020852163')],
    ['a size below nothing', example.replace('20852163', '-1')],
    ['a size past all counting', example.replace('20852163', '99999999999999999999')],
    [
      'a root that is too short',
      example.replace('CsUYapGGPo4dkMgIAUqom/Xajj7h2fB2MPA3j2jxq2I=', 'CsUY'),
    ],
    ['an empty line', example.replace('20852163', '')],
    ['two lines', 'example.com\n1\n'],
    ['no last new line', example.slice(0, -1)],
  ])('refuses %s', (_, text) => {
    expect(readCheckpointText(text)).toBeNull();
  });

  it('opens with a trusted key, and with no other', async () => {
    const [site, stranger] = await Promise.all([seedKey(1), seedKey(9)]);
    const checkpoint = { origin: logOriginOf(site.keyId), size: 0, root: emptyRoot() };
    const note = await signCheckpoint(checkpoint, site);
    const opened = await openCheckpoint(note, [stranger.publicKey, site.publicKey]);
    expect(opened).toEqual({ ok: true, checkpoint, publicKey: site.publicKey });
    expect(await openCheckpoint(note, [stranger.publicKey])).toEqual({
      ok: false,
      why: 'unknown-signer',
    });
    expect(await openCheckpoint(note, [])).toEqual({ ok: false, why: 'unknown-signer' });
  });

  it('is malformed when a trusted key signed something else under the log’s name', async () => {
    const site = await seedKey(1);
    const note = await signNote('log\nnot a size\n', 'log', site);
    expect(await openCheckpoint(note, [site.publicKey])).toEqual({ ok: false, why: 'malformed' });
  });

  it('changed anywhere, opens with no key', async () => {
    const site = await seedKey(1);
    const note = await signCheckpoint({ origin: 'log', size: 7, root: emptyRoot() }, site);
    for (let at = 0; at < note.length; at++) {
      const changed =
        note.slice(0, at) + String.fromCharCode(note.charCodeAt(at) ^ 1) + note.slice(at + 1);
      expect((await openCheckpoint(changed, [site.publicKey])).ok, `character ${at}`).toBe(false);
    }
  });
});
