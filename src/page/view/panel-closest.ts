import type { SceneData } from '../../export/book/scene-data.js';
import { closestPlaces } from './closest.js';
import { type Controls, group, labelledSelect, setChoices, spoken } from './controls.js';
import { shownLength } from './shown-number.js';
import type { View, ViewState } from './view-contract.js';

/** Two tubes and the places where they come closest, each with its limit. */
export function closestControls(view: View): Controls {
  const show = (number = 0): void => {
    const ids = [first.select.value, second.select.value] as const;
    view.showClosest(ids[0] !== '' && ids[1] !== '' && ids[0] !== ids[1] ? ids : null, number);
    list();
  };
  const first = labelledSelect('Between', () => show());
  const second = labelledSelect('and', () => show());
  const where = labelledSelect('Where', (value) => show(Number(value)));
  const said = spoken();
  let scene: SceneData | null = null;
  let shown: Pick<ViewState, 'pair' | 'closest'> = { pair: null, closest: null };
  const placesNow = () => (scene ? closestPlaces(scene, first.select.value, second.select.value) : []);
  const list = (): void => {
    const places = placesNow();
    setChoices(
      where.select,
      places.map((p, i) => [String(i), p.place]),
    );
    where.node.hidden = places.length < 2;
  };
  return {
    node: group('Closest place of two tubes', first.node, second.node, where.node, said),
    scene: (given) => {
      scene = given;
      const choices = [['', 'choose'], ...given.tubes.map((t) => [t.id, t.name] as const)] as const;
      setChoices(first.select, choices as readonly (readonly [string, string])[]);
      setChoices(second.select, choices as readonly (readonly [string, string])[]);
      list();
    },
    state: ({ pair, closest }) => {
      if (pair && (pair !== shown.pair || closest !== shown.closest)) {
        first.select.value = pair[0];
        second.select.value = pair[1];
        list();
        where.select.value = String(placesNow().findIndex((p) => p.place === closest?.place));
      }
      shown = { pair, closest };
      said.hidden = closest === null;
      if (!closest || !scene) return;
      const { value, limit, place } = closest;
      const against =
        limit === null
          ? ''
          : `; at least ${shownLength(limit, scene.units)}: ${value >= limit - 0.01 ? 'holds' : 'too close'}`;
      said.textContent = `${shownLength(value, scene.units, 2)} between ${place}${against}`;
    },
  };
}
