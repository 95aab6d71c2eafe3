import { describe, expect, it } from 'vitest';
import type { SceneData } from '../../src/export/book/scene-data.js';
import { distance } from '../../src/geometry/vec3.js';
import { closestPlaces } from '../../src/page/view/closest.js';
import { tubeOf } from '../support/scene-tube.js';

const low = tubeOf(
  {
    points: [
      [0, 0, 0],
      [0, 0, 300],
    ],
    clr: [],
  },
  null,
  '1',
);
const across = tubeOf(
  {
    points: [
      [-200, 80, 150],
      [200, 80, 150],
    ],
    clr: [],
  },
  null,
  '2',
);
const scene: SceneData = {
  schema: 'evenrun-scene-1',
  name: 'two',
  units: 'mm',
  tubes: [low, across],
  solids: [],
  gaps: [],
};

describe('the closest place of two tubes', () => {
  it('is measured where the scene tells none: two that cross at 80 mm are 38 mm apart', () => {
    const [place] = closestPlaces(scene, '1', '2');
    expect(place).toMatchObject({ place: 'cylinder 1 and cylinder 2', limit: null });
    expect(place!.value).toBeCloseTo(80 - 42, 6);
    expect(distance(place!.from, [0, 21, 150])).toBeLessThan(1e-6);
    expect(distance(place!.to, [0, 59, 150])).toBeLessThan(1e-6);
  });

  it('is what the scene tells where it does, whichever is named first', () => {
    const gap = {
      kind: 'tubes',
      tubes: ['1', '2'],
      place: 'there',
      value: 38,
      limit: 8,
      from: [0, 21, 150],
      to: [0, 59, 150],
    } as const;
    const alone = { ...gap, kind: 'kept-out', tubes: ['1'], place: 'elsewhere' } as const;
    const told = { ...scene, gaps: [alone, gap] };
    expect(closestPlaces(told, '1', '2')).toEqual([gap]);
    expect(closestPlaces(told, '2', '1')).toEqual([gap]);
  });

  it('is none for a tube and itself, or one that is not there', () => {
    expect(closestPlaces(scene, '1', '1')).toEqual([]);
    expect(closestPlaces(scene, '1', '9')).toEqual([]);
  });
});
