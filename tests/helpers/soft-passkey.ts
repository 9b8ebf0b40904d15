import { createHash, generateKeyPairSync, randomBytes, sign } from 'node:crypto';

/**
 * A passkey in software, so that a test can come in with one without a browser: WebAuthn Level 2, sections 6.1
 * (authenticator data), 6.5.2 (attested credential data) and 8.7 (no attestation), with ES256; from memory.
 */
const sha256 = (bytes: string | Uint8Array): Buffer => createHash('sha256').update(bytes).digest();
const base64 = (bytes: Uint8Array): string => Buffer.from(bytes).toString('base64url');

const USER_PRESENT = 0x01;
const USER_VERIFIED = 0x04;
const HAS_KEY = 0x40;

/** CBOR, RFC 8949: a byte string shorter than 65,536 bytes. */
const cborBytes = (bytes: Uint8Array): Buffer => {
  const head =
    bytes.length < 24
      ? [0x40 + bytes.length]
      : bytes.length < 256
        ? [0x58, bytes.length]
        : [0x59, bytes.length >> 8, bytes.length & 0xff];
  return Buffer.concat([Buffer.from(head), bytes]);
};
const cborText = (text: string): Buffer =>
  Buffer.concat([Buffer.from([0x60 + text.length]), Buffer.from(text)]);

export function makeSoftPasskey(origin: string) {
  const { publicKey, privateKey } = generateKeyPairSync('ec', { namedCurve: 'P-256' });
  const { x = '', y = '' } = publicKey.export({ format: 'jwk' });
  const credential = randomBytes(32);
  const id = base64(credential);
  const part = { id, rawId: id, type: 'public-key', clientExtensionResults: {} };
  const rpId = sha256(new URL(origin).hostname);
  const client = (type: string, challenge: string): Buffer =>
    Buffer.from(JSON.stringify({ type, challenge, origin, crossOrigin: false }));
  const data = (flags: number): Buffer =>
    Buffer.concat([rpId, Buffer.from([USER_PRESENT | USER_VERIFIED | flags]), Buffer.alloc(4)]);

  return {
    /** what the browser answers to navigator.credentials.create */
    register(challenge: string) {
      // COSE key, RFC 9052: kty EC2, alg ES256, crv P-256, x, y
      const cose = Buffer.concat([
        Buffer.from([0xa5, 0x01, 0x02, 0x03, 0x26, 0x20, 0x01, 0x21]),
        cborBytes(Buffer.from(x, 'base64url')),
        Buffer.from([0x22]),
        cborBytes(Buffer.from(y, 'base64url')),
      ]);
      const length = Buffer.from([0, credential.length]);
      const authData = Buffer.concat([data(HAS_KEY), Buffer.alloc(16), length, credential, cose]);
      const attestation = Buffer.concat([
        Buffer.from([0xa3]),
        ...[cborText('fmt'), cborText('none'), cborText('attStmt'), Buffer.from([0xa0])],
        ...[cborText('authData'), cborBytes(authData)],
      ]);
      const clientDataJSON = base64(client('webauthn.create', challenge));
      return { ...part, response: { clientDataJSON, attestationObject: base64(attestation) } };
    },
    /** what the browser answers to navigator.credentials.get */
    answer(challenge: string) {
      const clientData = client('webauthn.get', challenge);
      const authenticatorData = data(0);
      const signature = sign(
        'sha256',
        Buffer.concat([authenticatorData, sha256(clientData)]),
        privateKey,
      );
      return {
        ...part,
        response: {
          clientDataJSON: base64(clientData),
          authenticatorData: base64(authenticatorData),
          signature: base64(signature),
        },
      };
    },
  };
}
