export * from './device-key.ts';
export {
  askToKeepStore,
  type DeviceLabel,
  dropSheet,
  type KeptSheet,
  keepSheet,
  keptSheet,
  type Unsent,
  unsentFor,
} from './device-store.ts';
export * from './enrolment-hash.ts';
export * from './post-json.ts';
export * from './sign-practical.ts';
