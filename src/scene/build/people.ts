import { Group, Mesh } from 'three';
import type { Bench } from '../../bench/index.ts';
import { mergeInto } from '../shape/pieces.ts';
import type { Palette } from '../surface/palette.ts';
import { layoutOf } from './layout.ts';
import { mannequin } from './mannequin.ts';
import { peopleOf } from './stance.ts';

/** Everybody at the bench: a group for each, that knows where it stands. */
export function buildPeople(bench: Bench, palette: Palette): Group {
  const group = new Group();
  group.name = 'people';
  for (const person of peopleOf(bench)) {
    const one = mergeInto(mannequin(person, layoutOf(bench).floor), palette);
    one.name = person.who;
    one.userData.stands = [person.x / 1000, person.z / 1000];
    for (const mesh of one.children) {
      if (!(mesh instanceof Mesh)) continue;
      mesh.name = `person-${person.who}`;
      mesh.userData.part = 'people';
      // cloth is drawn as plain walls are, but it is not the room
      mesh.castShadow = !mesh.material.transparent;
      mesh.renderOrder = 0;
    }
    group.add(one);
  }
  return group;
}
