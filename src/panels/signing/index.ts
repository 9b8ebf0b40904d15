/** A fresh id for a sign-off and its event, or for a practical, UUID version 7. */
export { uuidv7 as newSignoffId } from 'uuidv7';
export * from './enrolment-hash.ts';
export * from './export/export-unsent.ts';
export * from './export/import-unsent.ts';
export { fetchKit, type Kit, type KitOut, type KitSigned, keptKit } from './kit.ts';
export { dropPhoto, keepPhoto, type PhotoKept, photoUrl } from './photos/photos.ts';
export { askSite, getJson, postJson, type Reply } from './post-json.ts';
export { confirmByPasskey } from './ready/confirm-by-passkey.ts';
export { confirmOnSite, enrol, MOST_AT_ONCE } from './ready/enrol.ts';
export * from './ready/leave-device.ts';
export * from './ready/make-ready.ts';
export { type Readiness, readinessOf } from './ready/readiness.ts';
export { whereConfirmed } from './ready/where-confirmed.ts';
export { sayInUse } from './say-in-use.ts';
export { confirmAgain } from './send/confirm-again.ts';
export { type FlushReport, flush, type Held } from './send/flush.ts';
export { keepSending, sendNow } from './send/keep-sending.ts';
export { whoIsHere } from './send/who-is-here.ts';
export { type SignAllInput, type SignAllOutcome, type SignedUnit, signAll } from './sign-all.ts';
export * from './store/device-key.ts';
export { askToKeepStore } from './store/device-store.ts';
export { followLog, forkedLog, LOG_CHANGED, settleLog } from './store/follow-log.ts';
export type {
  DeviceKey,
  DeviceLabel,
  KeptSheet,
  Logged,
  RefusedRecord,
  Unsent,
} from './store/kept.ts';
export {
  dropRefused,
  refusedOf,
  reopenSheets,
  tryAgain,
  unsentOf,
} from './store/outbox.ts';
export { dropSheet, keepSheet, keptSheet, leftHere } from './store/sheets.ts';
export { countWaiting, forgetMissing, type Waiting, watchUnsent } from './store/waiting.ts';
