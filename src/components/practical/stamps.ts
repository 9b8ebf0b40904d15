/** The mark beside each word a check of a proof can end with. */
export const STAMPS = {
  genuine: 'safe',
  altered: 'prohibition',
  'not from a trusted signer': 'prohibition',
  withdrawn: 'prohibition',
  ended: 'warning',
  'unknown as of a date': 'warning',
} as const;
