import { type Camera, Color, type Group, type Material, Mesh, ShaderMaterial } from 'three';

/** m: how near to a person's middle a line of sight may pass before they stand in the way. */
const BROAD = 0.36;
/** m: somebody this near the eye is in the way whatever is looked at. */
const NEAR = 0.75;
const TALL = 1.8;

type Spot = readonly [number, number, number];

/** Whether a line of sight from `eye` to `to` passes through somebody standing at (x, z). */
export function standsBetween(
  eye: Spot,
  to: Spot,
  [x, z]: readonly [number, number],
  floor: number,
): boolean {
  const [dx, dz] = [to[0] - eye[0], to[2] - eye[2]];
  const length = dx * dx + dz * dz;
  const share = length === 0 ? 0 : ((x - eye[0]) * dx + (z - eye[2]) * dz) / length;
  if (share <= 0 || share >= 1) return false;
  const high = eye[1] + (to[1] - eye[1]) * share;
  const apart = Math.hypot(eye[0] + dx * share - x, eye[2] + dz * share - z);
  return apart < BROAD && high > floor && high < floor + TALL;
}

/**
 * Keeps people from hiding the bench: whoever stands between the eye and the work is drawn as an
 * outline only, throws no shadow and cannot be touched.
 */
export function createVeil(root: Group, ink: string) {
  const outline = new ShaderMaterial({
    uniforms: { ink: { value: new Color(ink) } },
    vertexShader: `varying vec3 n; varying vec3 v;
void main() {
  vec4 p = modelViewMatrix * vec4(position, 1.0);
  n = normalMatrix * normal; v = -p.xyz;
  gl_Position = projectionMatrix * p;
}`,
    fragmentShader: `varying vec3 n; varying vec3 v; uniform vec3 ink;
void main() {
  float rim = 1.0 - abs(dot(normalize(n), normalize(v)));
  gl_FragColor = vec4(ink, 0.02 + 0.3 * pow(rim, 4.0));
}`,
    transparent: true,
    depthWrite: false,
  });
  let state: 'shown' | 'hidden' = 'shown';

  const turn = (mesh: Mesh, veiled: 'veiled' | 'solid'): void => {
    if (mesh.userData.veil === veiled) return;
    mesh.userData.solid ??= mesh.material;
    mesh.userData.veil = veiled;
    mesh.material = veiled === 'veiled' ? outline : (mesh.userData.solid as Material);
    mesh.castShadow = veiled === 'solid' && !mesh.material.transparent;
  };

  return {
    set(wanted: 'shown' | 'hidden'): void {
      state = wanted;
    },
    /**
     * @param target what is looked at, m
     * @param work places on the bench that are kept in sight
     * @returns whether anybody changed, so that shadows are thrown anew
     */
    aim(eye: Camera, target: Spot, work: readonly Spot[], floor: number): boolean {
      const people = root.getObjectByName('people');
      let changed = false;
      const from = eye.position.toArray();
      for (const one of people?.children ?? []) {
        const stands = one.userData.stands as readonly [number, number];
        const away = Math.hypot(target[0] - stands[0], target[2] - stands[1]);
        const near = Math.hypot(from[0] - stands[0], from[2] - stands[1]);
        // somebody who is looked at is not in the way
        const inTheWay =
          away > 0.22 &&
          (near < NEAR || [target, ...work].some((to) => standsBetween(from, to, stands, floor)));
        const now = state === 'hidden' ? 'hidden' : inTheWay ? 'veiled' : 'solid';
        if (one.userData.shown !== now) changed = true;
        one.userData.shown = now;
        one.visible = now !== 'hidden';
        for (const mesh of one.children) {
          if (mesh instanceof Mesh) turn(mesh, inTheWay ? 'veiled' : 'solid');
        }
      }
      return changed;
    },
    dispose: (): void => outline.dispose(),
  };
}
