import { type Camera, DirectionalLight, Group, Vector3 } from 'three';
import type { Theme } from './themes.ts';

export type Lights = {
  readonly group: Group;
  /** the one light that throws shadows */
  readonly key: DirectionalLight;
  setTheme(theme: Theme, lux: number): void;
  setLamp(state: 'on' | 'off'): void;
  /** carries the lamp along with the eye, a little to its left */
  aimLamp(eye: Camera): void;
};

/** Shadow-map edge, pixels: the whole bench at about a millimetre and a half. */
const SHADOW_SIZE = 2048;
const FILL_FROM = [1.6, 1.1, 1.9] as const;

/**
 * How bright a place with so much light on the table looks, 1 at 500 lx. The eye adapts: a tenth of
 * the light looks dim, not black.
 */
export const lightShare = (lux: number): number =>
  Math.min(1.12, Math.max(0.28, (lux / 500) ** 0.45));

/**
 * Two lights, no more: each one is paid for at every pixel. The second fills the shaded side; when the
 * hand lamp is lit it is that lamp instead.
 */
export function createLights(theme: Theme, lux: number): Lights {
  const group = new Group();
  const key = new DirectionalLight();
  key.position.set(-1.25, 2.7, -1.05);
  key.target.position.set(0.1, -0.1, 0.05);
  key.castShadow = true;
  key.shadow.mapSize.set(SHADOW_SIZE, SHADOW_SIZE);
  Object.assign(key.shadow.camera, {
    left: -1.5,
    right: 1.5,
    top: 1.35,
    bottom: -1.35,
    near: 0.4,
    far: 5.4,
  });
  key.shadow.radius = 2.2;
  key.shadow.bias = -0.0003;
  key.shadow.normalBias = 0.0012;
  const fill = new DirectionalLight();
  fill.position.set(...FILL_FROM);
  group.add(key, key.target, fill, fill.target);
  let now = { theme, lux };
  let lamp: 'on' | 'off' = 'off';
  const apply = (): void => {
    const share = lightShare(now.lux);
    key.color.set(now.theme.key.colour);
    key.intensity = now.theme.key.strength * share;
    fill.color.set(lamp === 'on' ? '#fff3dd' : now.theme.fill.colour);
    fill.intensity = lamp === 'on' ? 2.1 : now.theme.fill.strength * share;
    if (lamp === 'off') {
      fill.position.set(...FILL_FROM);
      fill.target.position.set(0, 0, 0);
      fill.target.updateMatrixWorld();
    }
  };
  apply();
  const beside = new Vector3();
  return {
    group,
    key,
    setTheme(wanted, light) {
      now = { theme: wanted, lux: light };
      apply();
    },
    setLamp(state) {
      lamp = state;
      apply();
    },
    aimLamp(eye) {
      if (lamp === 'off') return;
      fill.position.copy(eye.localToWorld(beside.set(-0.12, 0.08, 0)));
      fill.target.position.copy(eye.localToWorld(beside.set(0, 0, -1)));
      fill.target.updateMatrixWorld();
    },
  };
}
