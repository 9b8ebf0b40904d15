/** What the tests use of packages that come without types. */
declare module '@digitalbazaar/data-integrity' {
  export class DataIntegrityProof {
    constructor(options: { readonly cryptosuite: object });
  }
}

declare module '@digitalbazaar/eddsa-jcs-2022-cryptosuite' {
  export function createVerifyCryptosuite(): object;
}

declare module 'jsonld-signatures' {
  type Loader = (url: string) => Promise<{ readonly document: object }>;
  const jsigs: {
    readonly purposes: { readonly AssertionProofPurpose: new () => object };
    readonly verify: (
      document: object,
      options: {
        readonly suite: object;
        readonly purpose: object;
        readonly documentLoader: Loader;
      },
    ) => Promise<{ readonly verified: boolean }>;
  };
  export default jsigs;
}
