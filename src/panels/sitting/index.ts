export { mountSitting } from './mount.tsx';
