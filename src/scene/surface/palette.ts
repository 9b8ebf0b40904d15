import {
  type Material,
  MeshBasicMaterial,
  MeshLambertMaterial,
  MeshPhongMaterial,
  MeshPhysicalMaterial,
  MeshStandardMaterial,
  type Texture,
} from 'three';
import {
  castGrain,
  concreteGrain,
  endGrain,
  ironGrain,
  plainTexture,
  timberGrain,
} from './grain.ts';

/**
 * What things are made of. Few on purpose: every surface is one shader and one draw per mesh, and the
 * shade of each piece rides on its vertices.
 */
export type SurfaceId =
  /** planed iron and rolled steel, dulled by use */
  | 'iron'
  /** turned and ground steel */
  | 'steel'
  /** the blade: ground in circles */
  | 'plate'
  /** castings and sheet under enamel, plastics, rubber */
  | 'enamel'
  | 'timber'
  | 'end-grain'
  | 'floor'
  | 'wall'
  /** marks laid on another surface: cracks, scratches, pencil, paint lines */
  | 'mark'
  /** stains that let the surface below show through */
  | 'stain';

export type Surface = {
  readonly material: Material;
  /** mm of the thing that one repeat of its texture covers, along and across the grain */
  readonly tile: readonly [number, number];
};

export type Palette = {
  readonly surfaces: Readonly<Record<SurfaceId, Surface>>;
  dispose(): void;
};

const PLAIN = [1000, 1000] as const;

export function createPalette(): Palette {
  const textures: Texture[] = [];
  const keep = <T extends Texture>(texture: T): T => {
    textures.push(texture);
    return texture;
  };
  const iron = keep(ironGrain());
  // a map where none is needed: one shader fewer for the graphics card to make ready
  const plain = keep(plainTexture());
  const vertexColors = true;
  const surfaces: Record<SurfaceId, Surface> = {
    iron: {
      tile: [420, 260],
      material: new MeshStandardMaterial({
        vertexColors,
        map: iron,
        roughnessMap: iron,
        roughness: 0.66,
        metalness: 0.86,
        envMapIntensity: 0.95,
      }),
    },
    steel: {
      tile: [160, 60],
      material: new MeshStandardMaterial({
        vertexColors,
        map: iron,
        roughnessMap: iron,
        roughness: 0.4,
        metalness: 1,
      }),
    },
    plate: {
      tile: [1, 1],
      material: new MeshPhysicalMaterial({
        vertexColors,
        map: iron,
        roughness: 0.4,
        metalness: 1,
        anisotropy: 0.72,
      }),
    },
    enamel: {
      tile: [90, 90],
      material: new MeshPhongMaterial({
        vertexColors,
        map: keep(castGrain()),
        specular: '#2e2f30',
        shininess: 34,
      }),
    },
    timber: {
      tile: [700, 150],
      material: new MeshLambertMaterial({ vertexColors, map: keep(timberGrain()) }),
    },
    'end-grain': {
      tile: [256, 256],
      material: new MeshLambertMaterial({ vertexColors, map: keep(endGrain()) }),
    },
    floor: {
      tile: [1700, 1700],
      material: new MeshLambertMaterial({ vertexColors, map: keep(concreteGrain()) }),
    },
    wall: { tile: PLAIN, material: new MeshLambertMaterial({ vertexColors, map: plain }) },
    mark: {
      tile: PLAIN,
      material: new MeshBasicMaterial({
        vertexColors,
        polygonOffset: true,
        polygonOffsetFactor: -1,
        polygonOffsetUnits: -2,
      }),
    },
    stain: {
      tile: PLAIN,
      material: new MeshLambertMaterial({
        vertexColors,
        map: plain,
        transparent: true,
        depthWrite: false,
        polygonOffset: true,
        polygonOffsetFactor: -1,
        polygonOffsetUnits: -2,
      }),
    },
  };
  for (const [id, { material }] of Object.entries(surfaces)) material.name = id;
  return {
    surfaces,
    dispose() {
      for (const { material } of Object.values(surfaces)) material.dispose();
      for (const texture of textures) texture.dispose();
    },
  };
}
