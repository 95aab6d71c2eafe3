import { type Controls, group } from './controls.js';
import { button, element } from './element.js';
import { KEYS_IN_WORDS } from './keys.js';
import { LOOKS, type Look } from './stage.js';
import type { View } from './view-contract.js';

/** Named views, nearer, farther, all of it; what keys do. */
export function cameraControls(view: View): Controls {
  const looks = (Object.keys(LOOKS) as Look[]).map((name) => button(LOOKS[name].title, () => view.look(name)));
  const zoom = [
    button('+', () => view.zoom(1.25), { 'aria-label': 'Nearer' }),
    button('\u2212', () => view.zoom(1 / 1.25), { 'aria-label': 'Farther' }),
    button('Fit', () => view.fit()),
  ];
  const words = element('dl', {});
  for (const [keys, does] of KEYS_IN_WORDS) words.append(element('dt', {}, keys), element('dd', {}, does));
  const help = element(
    'details',
    { class: 'ev-help' },
    element('summary', {}, 'Mouse, touch and keys'),
    element(
      'p',
      {},
      'Drag to turn, drag with the right button or two fingers to move, wheel or pinch to zoom; press a tube to light it. Click the picture first for wheel and keys:',
    ),
    words,
  );
  const node = group(
    'View',
    element('div', { class: 'ev-row' }, ...looks),
    element('div', { class: 'ev-row' }, ...zoom),
    help,
  );
  return { node };
}
