/** A fresh id for a sign-off and its event, UUID version 7. */
export { uuidv7 as newSignoffId } from 'uuidv7';
export * from './device-key.ts';
export {
  askToKeepStore,
  type DeviceLabel,
  dropSheet,
  type KeptSheet,
  keepSheet,
  keptSheet,
  leftHere,
  type Unsent,
  unsentFor,
} from './device-store.ts';
export * from './enrolment-hash.ts';
export * from './post-json.ts';
export * from './sign-practical.ts';
